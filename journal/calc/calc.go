// Package calc is the arithmetic of the trade: numbers in, numbers out, in SI units unless a name says otherwise. It reads no file and
// knows no journal. Each family of formulas has a file of its own, with the source of its method beside it.
//
// A function returns an [error] of this package where its inputs make no sense; it never returns a NaN or a silent zero.
package calc

import (
	"fmt"
	"math"
)

// Refusal says why a number can't be had from its inputs.
type Refusal string

// Error returns the reason.
func (r Refusal) Error() string { return string(r) }

// positive refuses figures that must be above zero.
func positive(name string, x float64) error {
	if !(x > 0) || math.IsInf(x, 0) {
		return Refusal(fmt.Sprintf("%s must be more than zero", name))
	}
	return nil
}

// finite refuses a result that is no figure: inputs that are none, or too large or small to work with.
func finite(x float64) (float64, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, Refusal("the figures are too large or too small to work with")
	}
	return x, nil
}

// above refuses a result that must be more than zero and has vanished.
func above(x float64) (float64, error) {
	if x == 0 {
		return 0, Refusal("the figures are too large or too small to work with")
	}
	return finite(x)
}

// first returns the first refusal.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
