package assess

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// surface is what the places of the figures make of a value, as a sum of terms. It is
// fitted to runs, and costs next to nothing at places where none was solved.
type surface struct {
	terms   []term
	factors []float64
	off     float64 // standard deviation of the runs from it
}

// term is a shape of one figure, or the product of those of two; none for a constant.
type term []shape

// shape is a function of the place of a figure.
type shape struct {
	figure, kind int
}

// The kinds of shapes: of a figure that goes from one end to the other, and, from
// cosine on, of one that turns; harmonics follow by twos.
const (
	straight = iota
	bent
	split // as what is one thing or another does
	cosine
)

// harmonics are those of a turn that are tried; three lines share it in thirds.
const harmonics = 3

func (s shape) at(place []float64) float64 {
	x := place[s.figure]
	z := 2*x - 1
	switch s.kind {
	case straight:
		return z
	case bent:
		return z*z - 1./3
	case split:
		return math.Copysign(1, z)
	}
	n := s.kind - cosine
	return math.Cos(2*math.Pi*(float64(n/2+1)*x) - math.Pi/2*float64(n%2))
}

func (t term) at(place []float64) float64 {
	out := 1.0
	for _, s := range t {
		out *= s.at(place)
	}
	return out
}

func (s surface) at(place []float64) float64 {
	out := 0.0
	for i, t := range s.terms {
		out += s.factors[i] * t.at(place)
	}
	return out
}

// shapesOf returns the terms of one figure each.
func shapesOf(spans []span) []term {
	var out []term
	for i, s := range spans {
		from, to := straight, cosine
		if s.tries != nil {
			from, to = cosine, cosine+2*harmonics
		}
		for kind := from; kind < to; kind++ {
			out = append(out, term{{i, kind}})
		}
	}
	return out
}

// What a surface has at most: terms in which figures are multiplied with each other come
// from those that matter most alone. A term takes 20 runs.
const (
	mainTerms   = 9
	mostTerms   = 40
	runsForTerm = 20
)

// fit returns the surface of some values; one without terms where that fails.
func fit(spans []span, places [][]float64, values []float64) surface {
	out := surface{terms: termsFor(spans, places, values)}
	columns := out.columns(places)
	var factors, fitted mat.VecDense
	if err := factors.SolveVec(columns, mat.NewVecDense(len(values), values)); err != nil {
		return surface{}
	}
	fitted.MulVec(columns, &factors)
	out.factors = factors.RawVector().Data
	out.off = floats.Distance(values, fitted.RawVector().Data, 2) / math.Sqrt(float64(len(values)-len(out.terms)))
	return out
}

// sideRounds is how often a surface between two sides is set anew.
const sideRounds = 60

// fitSides returns the surface that is above zero on one side and below on the other,
// of values that are 1 or -1 (probit regression, by expectation and maximisation). It
// is steeper the better it parts them.
func fitSides(spans []span, places [][]float64, values []float64) surface {
	out := surface{terms: termsFor(spans, places, values), off: 1}
	columns := out.columns(places)
	var qr mat.QR
	qr.Factorize(columns)
	aim := mat.NewVecDense(len(values), nil)
	var factors, fitted mat.VecDense
	fitted.CloneFromVec(aim)
	for range sideRounds {
		for i, side := range values {
			at := fitted.AtVec(i)
			aim.SetVec(i, at+side*beyond(side*at))
		}
		if err := qr.SolveVecTo(&factors, false, aim); err != nil {
			return surface{}
		}
		fitted.MulVec(columns, &factors)
	}
	out.factors = factors.RawVector().Data
	return out
}

// beyond is the mean of what a normal deviate is beyond a value of which it is known to
// be above the negative.
func beyond(x float64) float64 {
	if x < -8 {
		return -x
	}
	return distuv.UnitNormal.Prob(x) / distuv.UnitNormal.CDF(x)
}

// columns returns the terms of a surface at some places.
func (s surface) columns(places [][]float64) *mat.Dense {
	out := mat.NewDense(len(places), len(s.terms), nil)
	for i, place := range places {
		for k, t := range s.terms {
			out.Set(i, k, t.at(place))
		}
	}
	return out
}

// termsFor returns the terms of a surface of some values.
func termsFor(spans []span, places [][]float64, values []float64) []term {
	most := min(mostTerms, len(places)/runsForTerm)
	single := shapesOf(spans)
	chosen := choose(single, places, values, min(mainTerms, most))
	all := single
	for i, a := range chosen {
		for _, b := range chosen[:i] {
			if a[0].figure != b[0].figure {
				all = append(all, term{a[0], b[0]})
			}
		}
	}
	return append(choose(all, places, values, most), term{})
}

// choose returns the terms that tell most of some values, one after the other, each
// beside those before it.
func choose(terms []term, places [][]float64, values []float64, most int) []term {
	columns := make([][]float64, len(terms))
	for k, t := range terms {
		columns[k] = make([]float64, len(places))
		for i, place := range places {
			columns[k][i] = t.at(place)
		}
		without(columns[k], ones(len(places)))
	}
	rest := slices.Clone(values)
	without(rest, ones(len(places)))
	var out []term
	for len(out) < most {
		best, at := 0.0, -1
		for k, c := range columns {
			if size := floats.Norm(c, 2); size > leastColumn*math.Sqrt(float64(len(places))) {
				if tells := math.Abs(floats.Dot(c, rest)) / size; tells > best {
					best, at = tells, k
				}
			}
		}
		if at < 0 {
			break
		}
		out = append(out, terms[at])
		taken := slices.Clone(columns[at])
		without(rest, taken)
		for _, c := range columns {
			without(c, taken)
		}
	}
	return out
}

// leastColumn is below which a term, by run, is no more than those before it make up.
const leastColumn = 1e-3

// without takes out of a column what lies along another.
func without(column, other []float64) {
	floats.AddScaled(column, -floats.Dot(column, other)/floats.Dot(other, other), other)
}

func ones(n int) []float64 {
	out := make([]float64, n)
	floats.AddConst(1, out)
	return out
}
