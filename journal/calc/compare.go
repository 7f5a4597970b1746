package calc

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"example.org/locknut/journal/quantity"
)

// StudentT returns how many standard deviations either way hold a share (0 to 1, both sides together) of Student's distribution with so many degrees of freedom, which need not be
// whole; infinitely many are the normal distribution. It refuses a share of nothing or of all, and fewer than one tenth of a degree.
//
// Source of the method: JCGM 100:2008 (GUM), annex G; the quantile by a library.
func StudentT(share, freedom float64) (float64, error) {
	if !(share > 0 && share < 1) {
		return 0, Refusal("the share must lie between none and all")
	}
	if !(freedom >= 0.1) {
		return 0, Refusal("there are too few degrees of freedom")
	}
	if freedom > 1e6 {
		return finite(distuv.UnitNormal.Quantile((1 + share) / 2))
	}
	return finite(distuv.StudentsT{Sigma: 1, Nu: freedom}.Quantile((1 + share) / 2))
}

// Effective returns the degrees of freedom of a figure of which each source of uncertainty, independent of the others, gives a standard deviation with degrees of freedom of its
// own: infinite where one is known and not estimated. It refuses lists of unlike length, and a figure without uncertainty.
//
//	ν = (Σ u²)² / Σ (u⁴ / ν)
//
// Of the difference of two means that is Welch's test. Source of the method: Welch and Satterthwaite, as in JCGM 100:2008 (GUM), G.4.1.
func Effective(deviations, freedoms []float64) (float64, error) {
	if len(deviations) != len(freedoms) || len(deviations) == 0 {
		return 0, Refusal("each source of uncertainty needs its degrees of freedom")
	}
	variance, sum := 0.0, 0.0
	for i, u := range deviations {
		if err := first(finitely(u)); err != nil {
			return 0, err
		}
		if !(freedoms[i] > 0) {
			return 0, Refusal("there are too few degrees of freedom")
		}
		variance += u * u
		sum += u * u * u * u / freedoms[i]
	}
	if !(variance > 0) {
		return 0, Refusal("there is no uncertainty")
	}
	if sum == 0 {
		return math.Inf(1), nil
	}
	return variance * variance / sum, nil
}

// Covered returns an estimate with the coverage that makes its expanded uncertainty hold 95 %, by its effective degrees of freedom, where any of its causes was estimated from
// repeats; the rest as they are, with two standard deviations. The expanded uncertainty is never less than that of the estimated causes alone: by the formula of the effective degrees of freedom (JCGM 100:2008, G.4.1) a cause that is known
// exactly adds so many of them that a small one narrows the interval, as if three pulls had scattered less because the air's share is known. That the interval must not shrink by a further cause is our own choice, no source.
func Covered(e quantity.Estimate) quantity.Estimate {
	e.Coverage = 0
	estimated := quantity.Estimate{}
	for _, s := range e.Shares {
		if s.Freedom > 0 && s.Std != 0 {
			estimated.Shares = append(estimated.Shares, s)
		}
	}
	if len(estimated.Shares) == 0 {
		return e
	}
	if t, ok := coverage(e.Shares); ok {
		e.Coverage = t
	}
	if len(estimated.Shares) == len(e.Shares) {
		return e
	}
	if t, ok := coverage(estimated.Shares); ok {
		e.Coverage = max(e.Coverage, t*estimated.Std()/e.Std())
	}
	return e
}

// coverage is how many standard deviations hold 95 %, by the effective degrees of freedom of causes.
func coverage(shares []quantity.Share) (k float64, ok bool) {
	var deviations, freedoms []float64
	for _, s := range shares {
		freedom := s.Freedom
		if freedom == 0 {
			freedom = math.Inf(1)
		}
		deviations, freedoms = append(deviations, s.Std), append(freedoms, freedom)
	}
	freedom, err := Effective(deviations, freedoms)
	if err != nil {
		return 0, false
	}
	k, err = StudentT(0.95, freedom)
	return k, err == nil
}
