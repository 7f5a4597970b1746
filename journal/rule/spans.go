package rule

import (
	"math"

	"example.org/locknut/journal/quantity"
)

const degree = math.Pi / 180 // in rad

// What engines, their cams and drives are like, each in the unit of its remark or as a ratio: beyond it a figure is doubted. Those of which packages below know too stand there. All of it is common practice, no source.
var (
	compressions      = quantity.Span{Low: 4, High: 24}
	rodRatios         = quantity.Span{Low: 1.3, High: 2.8}                   // rod over stroke
	squishes          = quantity.Span{Low: 0, High: 6e-3}                    // m
	exhaustsOpen      = quantity.Span{Low: 100 * degree, High: 240 * degree} // an exhaust port, rad of the crank
	transfersOpen     = quantity.Span{Low: 60 * degree, High: 200 * degree}  // a transfer port, rad of the crank
	blowdowns         = quantity.Span{Low: 1e-9, High: 60 * degree}          // rad of the crank, and more than none
	sparks            = quantity.Span{Low: -60 * degree, High: 30 * degree}  // rad of the crank, before the dead centre below nought
	pistonSpeeds      = quantity.Span{Low: 0, High: 30}                      // mean ones, m/s
	gasketOverBore    = quantity.Span{Low: 1, High: 1.3}                     // widths
	valveOverBore     = quantity.Span{Low: 0.15, High: 0.8}                  // widths
	exhaustOverIntake = quantity.Span{Low: 0.4, High: 1}                     // widths
	lobesOpen         = quantity.Span{Low: 60 * degree, High: 400 * degree}  // rad of the crank, at whatever lift
	topOverall        = quantity.Span{Low: 2, High: 18}                      // engine over wheel in the highest gear
	lowOverall        = quantity.Span{Low: 6, High: 60}                      // in the lowest
	primaries         = quantity.Span{Low: 1, High: 5}                       // the ratios of the three steps, driven over driver
	finals            = quantity.Span{Low: 1, High: 6}                       //
	lowGears          = quantity.Span{Low: 1.4, High: 5.5}                   // of the lowest gear
	topGears          = quantity.Span{Low: 0.5, High: 2}                     // of the highest
	circumferences    = quantity.Span{Low: 0.6, High: 2.6}                   // of a driven wheel, m
	mostWheels        = quantity.Span{Low: 0.9, High: 2.4}                   // those of most
	redlines          = quantity.Span{Low: 3000, High: math.Inf(1)}          // of light engines, rpm
	wrenches          = quantity.Span{Low: 0.1, High: 1.3}                   // from drive to grip, m
	chainLinks        = quantity.Span{Low: 10, High: 130}                    // over which chains are measured
)
