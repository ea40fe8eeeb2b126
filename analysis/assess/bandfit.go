package assess

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
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
// from those that matter most alone. A term takes a dozen runs.
const (
	mainTerms   = 9
	mostTerms   = 25
	runsForTerm = 12
)

// fit returns the surface of some values; one without terms where that fails.
func fit(spans []span, places [][]float64, values []float64) surface {
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
	out := surface{terms: append(choose(all, places, values, most), term{})}
	columns := mat.NewDense(len(places), len(out.terms), nil)
	for i, place := range places {
		for k, t := range out.terms {
			columns.Set(i, k, t.at(place))
		}
	}
	var factors, fitted mat.VecDense
	if err := factors.SolveVec(columns, mat.NewVecDense(len(values), values)); err != nil {
		return surface{}
	}
	fitted.MulVec(columns, &factors)
	out.factors = factors.RawVector().Data
	out.off = floats.Distance(values, fitted.RawVector().Data, 2) / math.Sqrt(float64(len(values)-len(out.terms)))
	return out
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
