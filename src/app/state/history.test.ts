import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beginGesture, cancelGesture, change, endGesture, redo, startHistory, undo } from './history.ts';

describe('history', () => {
  it('undoes and redoes one change at a time', () => {
    const h = change(change(startHistory(1), 2, 'to two'), 3, 'to three');
    expect(undo(h).present).toBe(2);
    expect(undo(undo(h)).present).toBe(1);
    expect(redo(undo(h)).present).toBe(3);
    expect(undo(h).future[0].what).toBe('to three');
  });

  it('makes one step of a whole gesture', () => {
    let h = beginGesture(startHistory(1), 'drag');
    for (let i = 2; i < 50; i++) h = change(h, i, 'ignored');
    h = endGesture(h);
    expect(h.past).toHaveLength(1);
    expect(undo(h).present).toBe(1);
    expect(redo(undo(h)).present).toBe(49);
  });

  it('leaves no step where a gesture changed nothing or was given up', () => {
    expect(endGesture(beginGesture(startHistory(1), 'drag')).past).toHaveLength(0);
    expect(cancelGesture(change(beginGesture(startHistory(1), 'drag'), 5, '')).present).toBe(1);
  });

  it('drops the way forward on a new change', () => {
    const h = change(undo(change(startHistory(1), 2, 'a')), 7, 'b');
    expect(h.future).toHaveLength(0);
    expect(undo(h).present).toBe(1);
  });

  it('comes back to where it was: any changes, all undone, all redone', () => {
    fc.assert(
      fc.property(fc.array(fc.integer(), { maxLength: 60 }), (values) => {
        let h = startHistory<number>(0);
        for (const v of values) h = change(h, v, 'x');
        const end = h.present;
        const steps = h.past.length;
        for (let i = 0; i < steps; i++) h = undo(h);
        expect(h.present).toBe(0);
        for (let i = 0; i < steps; i++) h = redo(h);
        expect(h.present).toBe(end);
      }),
    );
  });
});
