/*
 * One single-phase charge point through a year, every step by itself: docs/simulation-model.md written straight
 * down, to hold the engine's speed and totals against. Direct law, one second, fuse on both edges, two cables.
 *
 *     cc -O3 -o bench bench.c -lm && ./bench all-year|evenings read-every-s average-s
 *
 * Prints nanoseconds of processor and wall time for a step, and totals, as JSON. Currents in A, times in s.
 */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { DAYS = 365, MINUTES = DAYS * 1440, DAY_S = 86400, MOST_AVERAGE = 900, MOST_DELAY = 16 };

typedef struct {
  double current_a, time_s;
} Gate;

static const double LIMIT_A = 60, MARGIN_A = 1.3, RATED_A = 32, ONBOARD_A = 32, VOLTAGE_V = 230;
static const double LEAST_OFFER_A = 6, OFFER_STEP_A = 1, ROUNDING_A = 1e-9;
static const double RISE_HOLD_S = 30, RISE_STEP_A = 2, RESUME_EXTRA_A = 3, RESUME_HOLD_S = 60, MINIMUM_OFF_S = 90;
static const int COMMAND = 2, DEAD = 2, RESUME = 6;
static const double FALL_A = 8, RISE_A = 3, TAPER_KWH = 1.5;
static const double COOLING_S = 900;
static const Gate FAST[] = {{62, 3600}, {78, 40}, {110, 2}, {400, 0.01}};
static const Gate SLOW[] = {{72, 3600}, {96, 90}, {150, 3}, {500, 0.02}};
static const double SUPPLY_RATED_A = 80, SUPPLY_TAU_S = 400, CABLE_RATED_A = 36, CABLE_TAU_S = 240;
static const double AMBIENT_C = 25, RISE_K = 40;

/* The recurrence of demand.py. */
static void fill_building(double *building_a) {
  static const double base_a[] = {3, 10, 4, 16}, swing_a[] = {4, 14, 8, 14};
  uint64_t x = 101;
  for (int minute = 0; minute < MINUTES; minute++) {
    int hour = minute / 60 % 24;
    int part = hour < 6 ? 0 : hour < 10 ? 1 : hour < 16 ? 2 : 3;
    x = 16807 * x % 2147483647;
    building_a[minute] =
        base_a[part] + swing_a[part] * (double)(x % 4096) / 4096 + (x / 4096 % 16 == 0 ? 17 : 0);
  }
}

static double time_on_edge(const Gate *gates, double current_a, int is_slow) {
  if (current_a >= gates[3].current_a) return is_slow || current_a == gates[3].current_a ? gates[3].time_s : 0;
  int at = 1;
  while (gates[at].current_a <= current_a) at++;
  const Gate low = gates[at - 1], high = gates[at];
  double share = log(current_a / low.current_a) / log(high.current_a / low.current_a);
  return low.time_s * pow(high.time_s / low.time_s, share);
}

static double processor_s(void) { return (double)clock() / CLOCKS_PER_SEC; }

static double wall_s(void) {
  struct timespec now;
  clock_gettime(CLOCK_MONOTONIC, &now);
  return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

int main(int count, char **words) {
  if (count != 4) return fprintf(stderr, "usage: bench all-year|evenings read-every-s average-s\n"), 64;
  const int is_all_year = strcmp(words[1], "all-year") == 0;
  const int read_every = atoi(words[2]), average = atoi(words[3]);
  if (read_every < 1 || average < 1 || average > MOST_AVERAGE)
    return fprintf(stderr, "read every 1 s or more, average over 1 to %d s\n", MOST_AVERAGE), 64;
  double *building_a = malloc(MINUTES * sizeof *building_a);
  if (building_a == NULL) return fprintf(stderr, "no memory for a year\n"), 70;
  fill_building(building_a);

  static double total_window[MOST_AVERAGE], cars_window[MOST_AVERAGE], sent[MOST_DELAY], offered_past[MOST_DELAY];
  double offered_a = 0, noticed_a = 0, car_a = 0, wanted_kwh = 0, delivered_kwh = 0, energy_kwh = 0;
  int is_there = 0, is_asking = 0, was_full = 0;
  long draws_from = 0, until = 0;
  double offer_a = 0, held_since = NAN, paused_since = -INFINITY, total_a = 0, cars_a = 0;
  long over_steps = 0, run_steps = 0, longest_steps = 0, sessions = 0;
  double fast = 0, slow = 0, most_fast = 0, most_slow = 0;
  double supply_c = AMBIENT_C, cable_c = AMBIENT_C, most_supply_c = AMBIENT_C, most_cable_c = AMBIENT_C;
  const double cooled = exp(-1 / COOLING_S);
  const double supply_share = 1 - exp(-1 / SUPPLY_TAU_S), cable_share = 1 - exp(-1 / CABLE_TAU_S);

  const double started_s = processor_s(), wall_started_s = wall_s();
  const long steps = (long)DAYS * DAY_S;
  int slot = 0, until_read = 0;
  for (long step = 0; step < steps; step++) {
    const double now = (double)step;
    const long second = step % DAY_S;
    /* Comings and goings: 18:00 to 07:30, or once for all. */
    if (is_there && step >= until) {
      is_there = is_asking = 0;
      energy_kwh += delivered_kwh;
      car_a = 0;
    }
    if (!is_there && (is_all_year ? step == 0 : second == 18 * 3600)) {
      is_there = is_asking = 1;
      was_full = 0;
      sessions++;
      until = is_all_year ? steps : step + 13 * 3600 + 1800;
      wanted_kwh = is_all_year ? 1e9 : 12;
      delivered_kwh = 0;
      noticed_a = offered_a;
      for (int past = 0; past < MOST_DELAY; past++) offered_past[past] = offered_a;
      draws_from = step + RESUME;
    }
    /* The charge point hears. */
    offered_a = step < COMMAND ? 0 : sent[(step - COMMAND) % MOST_DELAY];
    offered_past[step % MOST_DELAY] = offered_a;
    /* The car moves. */
    if (is_there) {
      const double before_a = noticed_a;
      noticed_a = offered_past[(step - DEAD + MOST_DELAY) % MOST_DELAY];
      if (noticed_a >= 6 && before_a < 6) draws_from = step + RESUME;
      const double left_kwh = wanted_kwh - delivered_kwh;
      double most_a = ONBOARD_A;
      if (left_kwh <= 0)
        most_a = 0;
      else if (left_kwh < TAPER_KWH) {
        most_a = ONBOARD_A * left_kwh / TAPER_KWH;
        if (most_a < 0.05 * ONBOARD_A) most_a = 0;
      }
      if (most_a == 0) is_asking = 0;
      const double goal_a = is_asking && noticed_a >= 6 && step >= draws_from ? fmin(noticed_a, most_a) : 0;
      car_a += fmax(-FALL_A, fmin(RISE_A, goal_a - car_a));
      delivered_kwh += car_a * VOLTAGE_V / 3.6e6;
    }
    /* The supply carries. */
    const double current_a = building_a[step / 60] + car_a;
    if (current_a > LIMIT_A + ROUNDING_A) {
      over_steps++;
      run_steps++;
      if (run_steps > longest_steps) longest_steps = run_steps;
    } else
      run_steps = 0;
    /* The fuse. */
    const double size_a = fabs(current_a);
    fast = size_a >= FAST[0].current_a ? fast + 1 / time_on_edge(FAST, size_a, 0) : fast * cooled;
    slow = size_a >= SLOW[0].current_a ? slow + 1 / time_on_edge(SLOW, size_a, 1) : slow * cooled;
    if (fast > most_fast) most_fast = fast;
    if (slow > most_slow) most_slow = slow;
    /* Cables and tails. */
    const double supply_part = current_a / SUPPLY_RATED_A, cable_part = car_a / CABLE_RATED_A;
    supply_c += supply_share * (AMBIENT_C + RISE_K * supply_part * supply_part - supply_c);
    cable_c += cable_share * (AMBIENT_C + RISE_K * cable_part * cable_part - cable_c);
    if (supply_c > most_supply_c) most_supply_c = supply_c;
    if (cable_c > most_cable_c) most_cable_c = cable_c;
    /* The meter, and the manager on each reading. */
    total_window[slot] = current_a;
    cars_window[slot] = car_a;
    if (++slot == average) slot = 0;
    if (--until_read < 0) {
      until_read = read_every - 1;
      total_a = cars_a = 0;
      for (int past = 0; past < average; past++) {
        total_a += total_window[past];
        cars_a += cars_window[past];
      }
      total_a /= average;
      cars_a /= average;
      /* No reading is ever lost here, so none is too old. */
      const double room_a = LIMIT_A - MARGIN_A - (total_a - cars_a);
      double share_a = is_asking ? fmin(room_a, RATED_A) : 0;
      if (share_a < LEAST_OFFER_A) share_a = 0;
      double wanted_a = floor(share_a / OFFER_STEP_A + ROUNDING_A) * OFFER_STEP_A;
      if (wanted_a < LEAST_OFFER_A) wanted_a = 0;
      if (offer_a == 0) {
        if (wanted_a == 0 || (was_full && room_a < LEAST_OFFER_A + RESUME_EXTRA_A))
          held_since = NAN;
        else {
          if (isnan(held_since)) held_since = now;
          if (now - held_since >= RESUME_HOLD_S && now - paused_since >= MINIMUM_OFF_S) {
            offer_a = wanted_a;
            held_since = NAN;
          }
        }
      } else if (wanted_a <= offer_a) {
        offer_a = wanted_a;
        held_since = NAN;
        if (wanted_a == 0) {
          paused_since = now;
          was_full = room_a < LEAST_OFFER_A;
        }
      } else {
        if (isnan(held_since)) held_since = now;
        if (now - held_since >= RISE_HOLD_S) offer_a = fmin(wanted_a, offer_a + RISE_STEP_A);
      }
    }
    sent[step % MOST_DELAY] = offer_a;
  }
  const double taken_s = processor_s() - started_s, wall_taken_s = wall_s() - wall_started_s;
  if (is_there) energy_kwh += delivered_kwh;

  printf("{\"steps\":%ld,\"processorNs\":%.4f,\"wallNs\":%.4f,\"sessions\":%ld,", steps, 1e9 * taken_s / (double)steps,
         1e9 * wall_taken_s / (double)steps, sessions);
  printf("\"energyKwh\":%.17g,\"overSteps\":%ld,\"longestSteps\":%ld,\"mostFast\":%.17g,\"mostSlow\":%.17g,", energy_kwh,
         over_steps, longest_steps, most_fast, most_slow);
  printf("\"mostSupplyC\":%.17g,\"mostCableC\":%.17g}\n", most_supply_c, most_cable_c);
  free(building_a);
  return 0;
}
