/** A design with what it is judged by: every objective is the better the smaller; a violation of 0: all limits are kept. */
export interface Scored {
  readonly objectives: readonly number[];
  readonly violation: number;
}

/**
 * Whether `a` is surely better than `b`: a kept limit before a broken one, the smaller violation of two, and where both keep
 * all limits, as good everywhere and better somewhere. Source: Deb, Comput. Methods Appl. Mech. Eng. 186, 2000, 311-338.
 */
export function dominates(a: Scored, b: Scored): boolean {
  if (a.violation > 0 || b.violation > 0) return a.violation < b.violation;
  return (
    a.objectives.every((value, k) => value <= b.objectives[k]) &&
    a.objectives.some((value, k) => value < b.objectives[k])
  );
}

/** Places in ranks: the first dominated by none, the next by the first alone, and so on. Deb et al., IEEE Trans. Evol. Comput. 6, 2002, 182-197. */
export function ranksOf(members: readonly Scored[]): number[][] {
  const beats = members.map(() => [] as number[]);
  const above = members.map(() => 0);
  for (let i = 0; i < members.length; i++)
    for (let j = i + 1; j < members.length; j++) {
      if (dominates(members[i], members[j])) {
        beats[i].push(j);
        above[j]++;
      } else if (dominates(members[j], members[i])) {
        beats[j].push(i);
        above[i]++;
      }
    }
  const ranks: number[][] = [];
  let rank = members.map((_, i) => i).filter((i) => above[i] === 0);
  while (rank.length > 0) {
    ranks.push(rank);
    rank = rank.flatMap((i) => beats[i].filter((j) => --above[j] === 0)).sort((a, b) => a - b);
  }
  return ranks;
}

/** The `count` best: whole ranks first, of the last one those that stand most alone, thinned one by one. */
export function fittest<T extends Scored>(members: readonly T[], count: number): T[] {
  const kept: T[] = [];
  for (const rank of ranksOf(members)) {
    const room = count - kept.length;
    if (room <= 0) break;
    kept.push(...thinned(rank, members, room).map((i) => members[i]));
  }
  return kept;
}

/** Leaves out the most crowded of a rank, one at a time, until `count` are left. Ends of the front stay. */
function thinned(rank: readonly number[], members: readonly Scored[], count: number): number[] {
  const left = [...rank];
  while (left.length > count) {
    const lonely = crowding(left.map((i) => members[i]));
    let most = 0;
    for (let i = 1; i < left.length; i++) if (lonely[i] < lonely[most]) most = i;
    left.splice(most, 1);
  }
  return left;
}

/** Crowding distance of each: the sides of the box its neighbours leave it, summed. Deb et al. 2002, section III B. */
export function crowding(members: readonly Scored[]): number[] {
  const distance = members.map(() => 0);
  for (let k = 0; k < (members[0]?.objectives.length ?? 0); k++) {
    const order = members
      .map((_, i) => i)
      .sort((a, b) => members[a].objectives[k] - members[b].objectives[k] || a - b);
    const value = (place: number) => members[order[place]].objectives[k];
    const span = value(order.length - 1) - value(0);
    distance[order[0]] = distance[order[order.length - 1]] = Infinity;
    if (!(span > 0)) continue;
    for (let p = 1; p < order.length - 1; p++) distance[order[p]] += (value(p + 1) - value(p - 1)) / span;
  }
  return distance;
}
