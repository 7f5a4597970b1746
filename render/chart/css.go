package chart

// CSS returns the rules for the classes that the charts name. They take their colours and their type from the variables of a theme; a colour
// that it lacks is the text's.
//
//   - chart, c-strip, c-history, c-gains, c-over, c-curves, c-timing, c-lift, c-pressures, c-gears, c-squares, c-course: a drawing and its kind; c-cell, c-wide, c-narrow: its size
//   - c-band, c-service, c-bound, c-bound-service, c-nominal, c-rule: a limit; c-edge, c-edge-service, c-aim: its bounds and its nominal over time
//   - c-reading with c-in, c-worn, c-undecided or c-out; c-found; c-stale: a reading; c-outline, c-stroke, c-bar, c-hollow: how it is drawn
//   - c-arrow, c-trace, c-axis, c-grid, c-mark, c-flag, c-leader: arrows, the line between readings, axes, parts fitted, lines to labels
//   - c-gain, c-loss, c-loss-edge, c-unsure, c-total, c-link, c-broken, c-error: steps of gain
//   - c-gained: where a curve of gain lies above nought
//   - c-baseline, c-earlier, c-now with c-run or c-scatter or c-peak: curves of power
//   - c-dashed, c-dotted, c-mixed: lines of sessions between the first and the last, and what leads to their names
//   - c-open, c-card, c-unknown, c-shared, c-check: openings of valves and ports, what is not known of one, the time two share, the checking lift
//   - c-pressure, c-pressure-out, c-pressure-undecided, c-floor: bars of pressure, and the lowest that a rule allows
//   - c-drop: where the engine speed falls from gear to gear
//   - c-lean-harm, c-lean, c-rich: squares that are lean under load, lean elsewhere, rich
//   - c-envelope: from the least to the greatest that a log saw
//   - c-title, c-value, c-figure, c-name, c-unit, c-say-worn, c-say-undecided, c-say-out, c-say-now, c-halo: words
func CSS() string { return css }

const css = `.chart { display: block; max-width: 100%; height: auto; font-family: var(--plain, sans-serif); font-variant-numeric: tabular-nums lining-nums; fill: var(--ink, currentColor); overflow: visible; }
.chart path, .chart circle { fill: none; stroke: none; }
.chart.c-cell { display: inline-block; max-width: none; }
.chart.c-wide { width: 100%; max-width: 44rem; }
.chart.c-narrow { display: none; width: 100%; max-width: 26rem; }
.chart .c-rule, .chart .c-axis { stroke: var(--quiet, currentColor); stroke-width: 1; }
.chart .c-grid { stroke: var(--rule, currentColor); stroke-width: 0.75; }
.chart .c-band { fill: var(--rule, currentColor); }
.c-history .c-band, .c-course .c-band, .c-curves .c-band { fill: var(--faint, currentColor); }
.chart .c-service { stroke: var(--quiet, currentColor); stroke-width: 0.8; }
.c-history .c-service, .c-course .c-service { stroke: var(--rule, currentColor); }
.chart .c-bound { stroke: var(--ink, currentColor); stroke-width: 1.25; }
.chart .c-bound-service { stroke: var(--quiet, currentColor); stroke-width: 1; }
.chart .c-edge { stroke: var(--quiet, currentColor); stroke-width: 1; }
.chart .c-edge-service { stroke: var(--quiet, currentColor); stroke-width: 1; stroke-dasharray: 1 3; }
.chart .c-aim { stroke: var(--quiet, currentColor); stroke-width: 0.75; stroke-dasharray: 8 3 1.5 3; }
.chart .c-nominal { stroke: var(--ink, currentColor); stroke-width: 1.25; }
.chart .c-reading { fill: var(--ink, currentColor); }
.chart .c-worn { fill: var(--ochre, currentColor); }
.chart .c-undecided { fill: var(--blue, currentColor); }
.chart .c-out { fill: var(--vermilion, currentColor); }
.chart .c-stale { fill: var(--quiet, currentColor); opacity: 0.6; }
.chart .c-outline, .chart .c-stroke { fill: none; stroke: var(--ink, currentColor); stroke-width: 1.1; }
.chart .c-worn.c-outline, .chart .c-worn.c-stroke { stroke: var(--ochre, currentColor); }
.chart .c-undecided.c-outline, .chart .c-undecided.c-stroke { stroke: var(--blue, currentColor); }
.chart .c-out.c-outline, .chart .c-out.c-stroke { stroke: var(--vermilion, currentColor); }
.chart .c-found.c-outline, .chart .c-found.c-stroke, .chart .c-stale.c-outline, .chart .c-stale.c-stroke { stroke: var(--quiet, currentColor); }
.chart .c-hollow { fill: var(--paper, none); }
.chart .c-arrow { stroke: var(--quiet, currentColor); stroke-width: 1; }
.chart .c-trace { stroke: var(--quiet, currentColor); stroke-width: 0.9; }
.chart .c-mark { stroke: var(--blue, currentColor); stroke-width: 1; stroke-dasharray: 2 3; }
.chart .c-flag { fill: var(--blue, currentColor); }
.chart .c-leader { stroke: var(--quiet, currentColor); stroke-width: 0.75; }
.chart .c-gain { fill: var(--quiet, currentColor); }
.chart .c-loss { stroke: var(--ink, currentColor); stroke-width: 1.1; }
.chart .c-loss-edge { stroke: var(--ink, currentColor); stroke-width: 1.1; }
.chart .c-unsure { stroke: var(--ink, currentColor); stroke-width: 1.1; stroke-dasharray: 3 2; }
.chart .c-total { fill: var(--blue, currentColor); }
.chart .c-link { stroke: var(--quiet, currentColor); stroke-width: 0.75; }
.chart .c-broken { stroke: var(--quiet, currentColor); stroke-width: 0.75; stroke-dasharray: 1 3; }
.chart .c-error { stroke: var(--quiet, currentColor); stroke-width: 1.25; }
.chart .c-run { stroke-width: 1; stroke-linejoin: round; }
.chart .c-baseline.c-run { stroke: var(--quiet, currentColor); stroke-width: 1.6; }
.chart .c-earlier.c-run { stroke: var(--ink, currentColor); stroke-width: 0.8; }
.chart .c-now.c-run { stroke: var(--blue, currentColor); stroke-width: 2; }
.chart .c-dashed { stroke-dasharray: 7 3; }
.chart .c-dotted { stroke-dasharray: 1.5 2.5; }
.chart .c-mixed { stroke-dasharray: 8 2.5 1.5 2.5; }
.chart .c-gained { fill: var(--quiet, currentColor); opacity: 0.35; }
.chart .c-scatter { opacity: 0.22; }
.chart .c-earlier.c-scatter { opacity: 0.12; }
.chart .c-baseline.c-scatter { fill: var(--quiet, currentColor); }
.chart .c-earlier.c-scatter { fill: var(--ink, currentColor); }
.chart .c-now.c-scatter { fill: var(--blue, currentColor); }
.chart .c-baseline.c-peak { fill: var(--quiet, currentColor); }
.chart .c-earlier.c-peak { fill: var(--ink, currentColor); }
.chart .c-now.c-peak { fill: var(--blue, currentColor); }
.chart .c-open { fill: var(--blue, currentColor); }
.chart .c-card { fill: var(--quiet, currentColor); }
.chart .c-unknown { stroke: var(--ink, currentColor); stroke-width: 1.25; stroke-dasharray: 1.5 4; }
.chart .c-shared { stroke: var(--ink, currentColor); stroke-width: 0.9; }
.chart .c-check { stroke: var(--ink, currentColor); stroke-width: 1; stroke-dasharray: 6 3; }
.c-lift .c-baseline.c-run { stroke-width: 1; }
.chart .c-pressure { fill: var(--rule, currentColor); stroke: var(--ink, currentColor); stroke-width: 1.1; }
.chart .c-pressure-out { fill: var(--vermilion, currentColor); }
.chart .c-pressure-undecided { stroke: var(--blue, currentColor); stroke-width: 1.25; stroke-dasharray: 4 3; }
.c-pressures .c-band { fill: var(--faint, currentColor); }
.chart .c-floor { stroke: var(--ink, currentColor); stroke-width: 1.5; }
.chart .c-drop { stroke: var(--blue, currentColor); stroke-width: 1.25; stroke-dasharray: 3 3; }
.chart .c-lean-harm { stroke: var(--vermilion, currentColor); stroke-width: 2.75; }
.chart .c-lean { stroke: var(--ochre, currentColor); stroke-width: 1.1; }
.chart .c-rich { stroke: var(--ochre, currentColor); stroke-width: 4; stroke-dasharray: 1.25 2.5; }
.chart .c-envelope { fill: var(--rule, currentColor); stroke: var(--ink, currentColor); stroke-width: 1; stroke-linejoin: round; stroke-linecap: round; }
.chart .c-halo { paint-order: stroke; stroke: var(--paper, none); stroke-width: 4; stroke-linejoin: round; }
.chart .c-title { font-weight: 600; }
.chart .c-value { font-weight: 600; }
.chart .c-name, .chart .c-unit { fill: var(--quiet, currentColor); }
.chart .c-say-worn { fill: var(--ochre, currentColor); }
.chart .c-say-undecided, .chart .c-say-now { fill: var(--blue, currentColor); }
.chart .c-say-out { fill: var(--vermilion, currentColor); }
@media screen and (max-width: 40rem) {
  .chart.c-wide { display: none; }
  .chart.c-narrow { display: block; }
}
`
