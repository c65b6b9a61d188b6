/*
 * The ducted fan of src/air/fan.ts in plain C: the yardstick for the TypeScript, built and run by `npm run speed` alone.
 * Same equations, same two rounds, same steps in the same order; the constants of the section form and the gap's limit come
 * from constants.h, which speed/yardstick.ts writes from the TypeScript. Left out: open rotors, curved vanes, an uneven inflow,
 * measured polars, backward rotation and wide brackets (a fan that would need one makes the program stop).
 *
 * Input on stdin: see read_job. Output: "thrust torque" of every speed, one a line, then the nanoseconds of one fan.
 */
#define _POSIX_C_SOURCE 199309L
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#include "constants.h"

#define PI 3.141592653589793
#define MOST_ANNULI 200

static const double NOSE_WIDTH = 0.02, LIFT_WIDTH = 0.03, LOWER_WIDTH = 0.015, COMMON_WIDTH = 0.06;
static const double LOWER_REACH = 0.15, BUBBLE_LIFT = 2.5, PLATE_NORMAL = 2, MOST_ZERO_LIFT = 0.35;
static const double MOST_TURBULENT = 0.6, TURBULENT_MIDDLE = 2e5, TRIP = 600, TINY = 1e-9;

typedef struct {
  double thickness, camber, camber_position, trailing_edge, nose, roughness;
} Shape;

typedef struct {
  double camber, zero_lift, slope, aspect_keep, soft_zero, soft_slope, nose_stall_up, nose_up, nose_down, lift_up, lift_down;
  double suction_kept, friction, bubble, lower_onset, lower_drag, lower_lift;
} Stream;

typedef struct {
  double solidity, blade_angle, blade_speed, ram, head, head_reversed, gap_share, swirl_recovery;
} Annulus;

typedef struct {
  double relative_speed, axial, swirl, cd, cx, ct;
} State;

typedef struct {
  int annuli;
  double blades, hub_radius, tip_radius;
  double radius[MOST_ANNULI], width[MOST_ANNULI], chord[MOST_ANNULI], angle[MOST_ANNULI], lattice[MOST_ANNULI];
  Shape shape[MOST_ANNULI];
  double exit_ratio, reversed_exit_ratio, reversed_loss, swirl_recovery, gap_over_height, blade_aspect;
  double lip, wall, base, struts, expansion;
  double density, viscosity, sound_speed;
  double axial_speed;
} Job;

typedef struct {
  State state[MOST_ANNULI];
  double suction[MOST_ANNULI], reynolds[MOST_ANNULI], exit_velocity[MOST_ANNULI];
  double axial[MOST_ANNULI], swirl[MOST_ANNULI], steepness;
  double thrust, rotor_thrust, torque, mass_flow, axial_velocity, jet_velocity;
  double ideal, uneven, profile, gap, swirl_loss, lip, wall, base, struts, expansion, ledger_error;
} Run;

static double square(double x) { return x * x; }

/* ---- section ---- */

static double zero_lift_per_camber(double position) {
  double p = fmin(0.95, fmax(0.05, position));
  double theta = acos(1 - 2 * p);
  double to_top = (0.75 - p) * theta + (p - 1.5) * sqrt(p * (1 - p));
  double front = to_top / square(p);
  double rear = ((0.75 - p) * PI - to_top) / square(1 - p);
  return (-2 / PI) * (front + rear);
}

static double smooth_drag(double re, double t, double tripped, double roughness) {
  double laminar = 1.328 / sqrt(re);
  double smooth = 0.455 * exp(-2.58 * log(0.4342944819032518 * log(fmax(re, 1e4))));
  double rough = roughness > 1e-6 ? pow(1.89 + 1.62 * log10(1 / roughness), -2.5) : 0;
  double natural = MOST_TURBULENT / (1 + TURBULENT_MIDDLE / re);
  double share = natural + (1 - natural) * tripped;
  return 2 * ((1 - share) * laminar + share * fmax(smooth, rough)) * (1 + 2 * t + 60 * square(t * t));
}

static void section_stream(const Shape *shape, double reynolds, double mach, double chord_over_radius, double lattice,
                           Stream *s) {
  double re = fmin(1e7, fmax(500, reynolds));
  double m = shape->camber;
  double t = fmax(0.005, shape->thickness);
  double bluntness = t * shape->nose;
  double roughness = shape->roughness;
  double tripped = roughness > 0 ? 1 / (1 + pow(TRIP / (re * roughness), 4)) : 0;
  double rotation = square(fmin(chord_over_radius, 0.6));
  double laminar = (1 - tripped) / (1 + exp(log(re / laminarMiddle) / laminarSpread));
  double log_re = log(fmin(re, 1e6));
  double nose = noseStall + noseStallReynolds * (log_re - log(3e4)) + rotationDelay * rotation;
  double lift = liftStall + rotationDelay * rotation;
  double smooth = friction * smooth_drag(re, t, tripped, roughness);
  double edge = fmin(shape->trailing_edge, t);
  double size = fabs(m);
  s->camber = m;
  s->zero_lift = fmax(-MOST_ZERO_LIFT, fmin(MOST_ZERO_LIFT, zero_lift_per_camber(shape->camber_position) * m));
  s->slope = (2 * PI * slope * lattice) / sqrt(1 - square(fmin(mach, 0.7)));
  s->aspect_keep = 1 / (1 + lowAspect * rotation);
  s->soft_zero = softZero * laminar;
  s->soft_slope = softSlope * laminar;
  s->nose_stall_up = nose + noseStallCamber * m;
  s->nose_up = exp(-(nose + noseStallCamber * m) / NOSE_WIDTH);
  s->nose_down = exp(-(nose - noseStallCamber * m) / NOSE_WIDTH);
  s->lift_up = exp(-(lift + liftStallCamber * m) / LIFT_WIDTH);
  s->lift_down = exp(-(lift - liftStallCamber * m) / LIFT_WIDTH);
  s->suction_kept = 1 / (1 + square(square(suctionThickness / bluntness)));
  s->friction = smooth + (edge > 0 ? 0.135 * edge * cbrt(edge / smooth) : 0);
  s->bubble = bubble * laminar * (t / 0.09);
  s->lower_onset = exp((lowerOnset + lowerCamber * size - lowerThickness * bluntness -
                        lowerReynolds * fmax(0, log_re - log(6e4))) /
                       LOWER_WIDTH);
  s->lower_drag = lowerDrag * size;
  s->lower_lift = lowerLift * m;
}

static double small_angle(double angle) {
  double x = (1 - fabs(angle)) / 0.6;
  return x >= 1 ? 1 : x <= 0 ? 0 : x * x * (3 - 2 * x);
}

static double lower_depth(double onset, double rise) {
  double past = onset / rise;
  if (past < 1e-16) return 0;
  double depth = LOWER_WIDTH * log1p(past);
  return depth / (1 + depth / LOWER_REACH);
}

static void lift_drag(const Stream *s, double alpha, double *cl, double *cd) {
  double angle = alpha > PI ? alpha - 2 * PI : alpha < -PI ? alpha + 2 * PI : alpha;
  double a = angle - (1 - s->aspect_keep) * (angle - s->zero_lift) * small_angle(angle);
  double e = exp(a / COMMON_WIDTH);
  double e2 = e * e;
  double e3 = e2 * e;
  double nose = 1 / ((1 + e3 * s->nose_up) * (1 + s->nose_down / e3));
  double attached = 1 / ((1 + e2 * s->lift_up) * (1 + s->lift_down / e2));
  double zero_lift = s->zero_lift * (1 - s->soft_zero * nose);
  double rise = s->slope * (1 - s->soft_slope * nose);
  double half = (1 + sqrt(attached)) / 2;
  double broken = (1 - attached) * (1 - attached);
  double whole = 1 - broken;
  double lower = s->lower_drag == 0 ? 0 : lower_depth(s->lower_onset, s->camber < 0 ? 1 / (e2 * e2) : e2 * e2);
  double cn = (rise * sin(a - zero_lift) - s->lower_lift * lower) * half * half * whole +
              broken * PLATE_NORMAL * sin(angle);
  *cd = s->friction + (s->bubble * (1 + BUBBLE_LIFT * cn * cn) + s->lower_drag * lower * lower) * whole +
        (1 - nose * s->suction_kept) * fabs(cn) * fabs(sin(angle - 2 * s->camber * whole));
  *cl = cn * cos(a);
}

/* ---- annulus ---- */

static double give_of(const Annulus *in, double cx, double tau, double sine) {
  double pressure = in->solidity * cx * (cx > 0 ? 1 - in->gap_share : 1);
  double head = sine > 0 ? in->head : -in->head_reversed;
  return pressure + in->swirl_recovery * tau * tau - head * sine * sine;
}

static double balance_at(const Annulus *in, const Stream *stream, double phi) {
  double sine = sin(phi), cosine = cos(phi), cl, cd;
  lift_drag(stream, in->blade_angle - phi, &cl, &cd);
  double cx = cl * cosine - cd * sine;
  double ct = cl * sine + cd * cosine;
  double tau = (in->solidity * ct) / (2 * fmax(fabs(sine), TINY));
  double k = cosine + tau / 2;
  double give = give_of(in, cx, tau, sine);
  double scale = in->blade_speed * in->blade_speed;
  if (k <= 0) {
    double away = (scale + fabs(in->ram)) * (fabs(give) + k * k);
    return phi > 0 ? -away : away;
  }
  return scale * give + in->ram * k * k;
}

static double root_near(const Annulus *in, const Stream *stream, double guess, double tolerance, double *steepness) {
  if (!(guess > 1e-3 && guess < 1.4)) return 0;
  double scale = in->blade_speed * in->blade_speed;
  double fall = scale * (in->solidity * stream->slope + 2 * in->head * guess);
  double a = guess;
  double fa = balance_at(in, stream, a);
  if (fa == 0) return a;
  double most = 0.08 * guess;
  double b = a + fmax(-most, fmin(most, fa / (fall * *steepness)));
  double before = 0;
  for (int i = 0; i < 9; i++) {
    double fb = balance_at(in, stream, b);
    if (fb == 0) return b;
    double slope_here = (fb - fa) / (b - a);
    if (!(slope_here < 0)) return 0;
    double next = b - fb / slope_here;
    if (!(next > 0.4 * guess && next < 1.7 * guess)) return 0;
    double step = fabs(next - b);
    if (step < tolerance || step * step < 0.01 * tolerance * before) {
      *steepness = -slope_here / fall;
      return next;
    }
    before = fabs(b - a);
    a = b;
    fa = fb;
    b = next;
  }
  return 0;
}

/* Brent's zero, as src/numerics/root.ts has it. */
static double find_root(const Annulus *in, const Stream *stream, double low, double high, double tolerance) {
  double a = low, b = high;
  double fa = balance_at(in, stream, a), fb = balance_at(in, stream, b);
  if (fa == 0) return a;
  if (fb == 0) return b;
  double c = a, fc = fa, d = b - a, e = d;
  for (int i = 0; i < 200; i++) {
    if (fabs(fc) < fabs(fb)) {
      a = b, b = c, c = a;
      fa = fb, fb = fc, fc = fa;
    }
    double limit = 2 * 2.220446049250313e-16 * fabs(b) + tolerance / 2;
    double half = (c - b) / 2;
    if (fabs(half) <= limit || fb == 0) return b;
    if (fabs(e) < limit || fabs(fa) <= fabs(fb)) {
      d = e = half;
    } else {
      double s = fb / fa, p, q;
      if (a == c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        double u = fa / fc, v = fb / fc;
        p = s * (2 * half * u * (u - v) - (b - a) * (v - 1));
        q = (u - 1) * (v - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      p = fabs(p);
      if (2 * p < fmin(3 * half * q - fabs(limit * q), fabs(e * q))) {
        e = d;
        d = p / q;
      } else {
        d = e = half;
      }
    }
    a = b, fa = fb;
    b += fabs(d) > limit ? d : half > 0 ? limit : -limit;
    fb = balance_at(in, stream, b);
    if ((fb > 0) == (fc > 0)) c = a, fc = fa, d = e = b - a;
  }
  return b;
}

static double largest_root(const Annulus *in, const Stream *stream, double tolerance) {
  static const double shares[] = {0.8, 0.62, 0.48, 0.36, 0.26, 0.18, 0.11, 0.06, 0.02};
  double top = in->blade_angle - stream->zero_lift, high = top;
  if (high > 0.02 && high < 1.4 && balance_at(in, stream, high) < 0) {
    for (int i = 0; i < 9; i++) {
      double low = top * shares[i];
      if (balance_at(in, stream, low) >= 0) return find_root(in, stream, low, high, tolerance);
      high = low;
    }
  }
  fprintf(stderr, "This fan needs a wide bracket, which the yardstick leaves out.\n");
  exit(2);
}

static void solve_annulus(const Annulus *in, const Stream *stream, double guess, double tolerance, double *steepness,
                          State *out) {
  double phi = root_near(in, stream, guess, tolerance, steepness), cl, cd;
  if (!(phi > 0 && in->blade_angle - phi < stream->nose_stall_up)) phi = largest_root(in, stream, 0.01 * tolerance);
  double sine = sin(phi), cosine = cos(phi);
  lift_drag(stream, in->blade_angle - phi, &cl, &cd);
  double cx = cl * cosine - cd * sine;
  double ct = cl * sine + cd * cosine;
  double size = fmax(fabs(sine), TINY);
  double tau = (in->solidity * ct) / (2 * size);
  double k = cosine + tau / 2;
  double give = give_of(in, cx, tau, sine);
  double speed = k > 1e-9 ? in->blade_speed / k : 0;
  if (k < fabs(give)) {
    double drive = in->ram / -give;
    if (drive > 0 && isfinite(drive)) speed = sqrt(drive);
  }
  *out = (State){speed, speed * (sine < 0 ? -size : size), speed * tau, cd, cx, ct};
}

/* ---- fan ---- */

static double carried_swirl(const State *s) {
  if (!(s->axial > 0)) return 0;
  double flow = square(s->axial), swirl = square(s->swirl);
  return (swirl * flow) / (flow + square(0.03) * swirl);
}

static void solve_all(const Job *job, Run *run, double omega, int stride, double share, double tolerance) {
  double loss = job->lip + job->wall + job->base + job->struts + job->expansion;
  double suction = 0, last = 0;
  int n = job->annuli;
  for (int i = n - 1; i >= 0; i -= stride) {
    double r = job->radius[i];
    double blade_speed = omega * r;
    int known = isnan(run->axial[i]) ? i + stride : i;
    double through = known < n ? run->axial[known] : job->axial_speed;
    double across = blade_speed - (known < n ? run->swirl[known] : 0) / 2;
    double speed = sqrt(through * through + across * across);
    run->reynolds[i] = (job->density * speed * job->chord[i]) / job->viscosity;
    Stream stream;
    section_stream(&job->shape[i], run->reynolds[i], speed / job->sound_speed, job->chord[i] / r, job->lattice[i], &stream);
    double exit_suction = suction + last / 2;
    Annulus in = {
        .solidity = (job->blades * job->chord[i]) / (2 * PI * r),
        .blade_angle = job->angle[i],
        .blade_speed = blade_speed,
        .ram = job->axial_speed * fabs(job->axial_speed) + 2 * exit_suction,
        .head = 1 / square(job->exit_ratio) + loss,
        .head_reversed = 1 / square(job->reversed_exit_ratio) + job->reversed_loss,
        .gap_share = share,
        .swirl_recovery = job->swirl_recovery,
    };
    run->suction[i] = exit_suction;
    State *state = &run->state[i];
    solve_annulus(&in, &stream, known < n ? atan2(through, across) : NAN, tolerance, &run->steepness, state);
    run->axial[i] = state->axial;
    run->swirl[i] = state->swirl;
    double width = 0;
    for (int k = i; k > i - stride && k >= 0; k--) width += job->width[k];
    last = ((1 - job->swirl_recovery) * carried_swirl(state) * width) / r;
    suction += last;
  }
}

static void spread_guesses(const Job *job, Run *run) {
  for (int i = job->annuli - 1; i >= 0; i -= 3) {
    int inner = i - 3, end = inner > 0 ? inner : 0;
    for (int k = i - 1; k > (inner > -1 ? inner : -1); k--) {
      double t = inner >= 0 ? (job->radius[i] - job->radius[k]) / (job->radius[i] - job->radius[inner]) : 0;
      run->axial[k] = run->axial[i] + t * (run->axial[end] - run->axial[i]);
      run->swirl[k] = run->swirl[i] + t * (run->swirl[end] - run->swirl[i]);
    }
  }
}

static double gap_share_of(const Job *job, const Run *run, double omega) {
  double tip_speed = omega * job->tip_radius;
  if (!(job->gap_over_height > 0) || tip_speed == 0) return 0;
  double area = 0, flow = 0, force = 0;
  for (int i = job->annuli - 1; i >= 0; i -= 3) {
    double ring = job->radius[i] * job->width[i];
    area += ring;
    flow += fmax(0, run->state[i].axial) * ring;
    force += job->chord[i] * job->width[i] * square(run->state[i].relative_speed) * run->state[i].cx;
  }
  double pressure = ((job->density / 2) * job->blades * fmax(0, force)) / (2 * PI * area);
  double psi = fmax(1e-6, pressure / ((job->density / 2) * square(tip_speed)));
  double through = fmax(1e-6, flow / area / tip_speed);
  double lambda = job->gap_over_height;
  double cosine = cos(atan(fmax(0.2, 1 - psi / 4) / through));
  double loss = ((0.7 * lambda * psi) / cosine) * (1 + 10 * sqrt((through * lambda * job->blade_aspect) / (psi * cosine)));
  return LARGEST_SHARE * (1 - exp(-loss / LARGEST_SHARE));
}

static void sum_up(const Job *job, Run *run, double omega, double share) {
  double rho = job->density, v0 = job->axial_speed;
  double thrust = 0, rotor_thrust = 0, torque = 0, mass = 0, axial_moment = 0, exit_moment = 0, jet = 0, profile = 0;
  double gap = 0, swirl = 0, heads = 0, reversed_lip = 0, through = 0;
  for (int i = 0; i < job->annuli; i++) {
    const State *s = &run->state[i];
    double r = job->radius[i];
    double ring = 2 * PI * r * job->width[i];
    double blade = (rho / 2) * square(s->relative_speed) * job->blades * job->chord[i] * job->width[i];
    double axial_force = blade * s->cx;
    rotor_thrust += axial_force;
    torque += blade * s->ct * r;
    profile += blade * s->cd * s->relative_speed;
    double vx = s->axial;
    double flow = fabs(vx) * ring;
    double swirl_head = (rho / 2) * square(s->swirl);
    double out;
    if (vx >= 0) {
      out = vx / job->exit_ratio;
      thrust += rho * flow * (out - v0) - rho * run->suction[i] * ring * job->exit_ratio;
      jet += flow * (rho / 2) * (square(out) - v0 * fabs(v0));
      swirl += flow * ((1 - job->swirl_recovery) * swirl_head - rho * run->suction[i]);
      gap += (fmax(0, axial_force) / ring) * flow * share;
      heads += flow * (rho / 2) * square(vx);
    } else {
      out = vx / job->reversed_exit_ratio;
      thrust += rho * flow * (out - v0);
      jet += flow * (rho / 2) * (square(out) + v0 * fabs(v0) + 2 * run->suction[i]);
      swirl += flow * (1 + job->swirl_recovery) * swirl_head;
      gap -= (fmax(0, axial_force) / ring) * flow * share;
      reversed_lip += flow * (rho / 2) * square(vx) * job->reversed_loss;
    }
    mass += rho * vx * ring;
    axial_moment += flow * vx;
    exit_moment += flow * out;
    through += flow;
    run->exit_velocity[i] = out;
  }
  double disc = PI * (square(job->tip_radius) - square(job->hub_radius));
  double jet_speed = v0 / 2 + sqrt(square(v0 / 2) + fabs(thrust) / (rho * disc * job->exit_ratio));
  run->thrust = thrust;
  run->rotor_thrust = rotor_thrust;
  run->torque = torque;
  run->mass_flow = mass;
  run->axial_velocity = through > 0 ? axial_moment / through : 0;
  run->jet_velocity = through > 0 ? exit_moment / through : 0;
  run->ideal = thrust < 0 && v0 != 0 ? 0 : (fabs(thrust) * (jet_speed + v0)) / 2;
  run->uneven = jet - run->ideal;
  run->profile = profile;
  run->gap = gap;
  run->swirl_loss = swirl;
  run->lip = heads * job->lip + reversed_lip;
  run->wall = heads * job->wall;
  run->base = heads * job->base;
  run->struts = heads * job->struts;
  run->expansion = heads * job->expansion;
  run->ledger_error = torque * omega - (run->ideal + run->uneven + profile + gap + swirl + run->lip + run->wall +
                                        run->base + run->struts + run->expansion);
}

static void run_fan(const Job *job, Run *run, double omega) {
  for (int i = 0; i < job->annuli; i++) run->axial[i] = NAN, run->swirl[i] = 0;
  run->steepness = 1;
  solve_all(job, run, omega, 3, 0, 1e-8);
  double share = gap_share_of(job, run, omega);
  spread_guesses(job, run);
  solve_all(job, run, omega, 1, share, 1e-12);
  sum_up(job, run, omega, share);
}

/* ---- input, output ---- */

static double number(void) {
  double x;
  if (scanf("%lf", &x) != 1) {
    fprintf(stderr, "The yardstick's input ends too early.\n");
    exit(1);
  }
  return x;
}

/* Annuli, then for each one its numbers, then rotor, duct, air and flight speed, in the order below. */
static void read_job(Job *job) {
  job->annuli = (int)number();
  if (job->annuli < 1 || job->annuli > MOST_ANNULI) {
    fprintf(stderr, "The yardstick takes 1 to %d annuli.\n", MOST_ANNULI);
    exit(1);
  }
  for (int i = 0; i < job->annuli; i++) {
    Shape *s = &job->shape[i];
    double *fields[] = {&job->radius[i],   &job->width[i],       &job->chord[i],        &job->angle[i], &job->lattice[i],
                        &s->thickness,     &s->camber,           &s->camber_position,   &s->trailing_edge, &s->nose,
                        &s->roughness};
    for (size_t k = 0; k < sizeof fields / sizeof *fields; k++) *fields[k] = number();
  }
  double *fields[] = {&job->blades,     &job->hub_radius,          &job->tip_radius,    &job->exit_ratio,
                      &job->reversed_exit_ratio, &job->reversed_loss, &job->swirl_recovery, &job->gap_over_height,
                      &job->blade_aspect, &job->lip,               &job->wall,          &job->base,
                      &job->struts,     &job->expansion,           &job->density,       &job->viscosity,
                      &job->sound_speed, &job->axial_speed};
  for (size_t k = 0; k < sizeof fields / sizeof *fields; k++) *fields[k] = number();
}

int main(void) {
  static Job job;
  static Run run;
  double omegas[1000];
  read_job(&job);
  int speeds = (int)number();
  if (speeds < 1 || speeds > 1000) return 1;
  for (int i = 0; i < speeds; i++) omegas[i] = number();
  int rounds = (int)number();
  for (int i = 0; i < speeds; i++) {
    run_fan(&job, &run, omegas[i]);
    printf("%.17g %.17g\n", run.thrust, run.torque);
  }
  struct timespec from, to;
  clock_gettime(CLOCK_MONOTONIC, &from);
  for (int k = 0; k < rounds; k++)
    for (int i = 0; i < speeds; i++) run_fan(&job, &run, omegas[i]);
  clock_gettime(CLOCK_MONOTONIC, &to);
  double spent = (to.tv_sec - from.tv_sec) * 1e9 + (to.tv_nsec - from.tv_nsec);
  printf("%.17g\n", spent / ((double)rounds * speeds));
  return isfinite(run.ledger_error) ? 0 : 1;
}
