package spice

import (
	"fmt"

	"clampline/analysis/circuit"
)

// lines writes each line of m conductors as m lines from each conductor to a
// common point, of impedance Own, and one from the common point to earth, of
// impedance Mutual. The last carries the sum of all currents, so that
//
//	v_k = Own i_k + Mutual (i_1 + ... + i_m) + what arrives from the other end
//
// which is the matrix of circuit.Alike. All have one delay, and resistance in
// series with each adds to the matrix in the same way. A line of one conductor
// needs no common point: there the two impedances are one after the other.
func (d *deck) lines() {
	d.section(len(d.n.Lines), "lines: each conductor to a common point, the common point to earth")
	for i, l := range d.n.Lines {
		if d.ended() {
			return
		}
		d.comment("%s: conductors %d, length %.4g m, delay %.4g ns", text(l.Name), len(l.A), l.Length, l.Delay*1e9)
		w := &lineWriter{deck: d, Line: l, key: fmt.Sprintf("line%d", i+1)}
		if len(l.A) == 1 {
			w.single()
		} else {
			w.bundle()
		}
	}
}

// kink is by how much the slope of a wave must change, relative to itself, for
// the simulator to begin anew with very small steps when the wave arrives. Left
// to itself it does so at every kink of every reflection, takes ten times as
// long and often comes to a halt. The longest step resolves the waves already.
const kink = 1000

// lineWriter writes one line.
type lineWriter struct {
	*deck
	circuit.Line
	key string
}

func (w *lineWriter) single() {
	half := (w.R.Own + w.R.Mutual) / 2
	a := w.through("a1", w.node(w.A[0]), half)
	b := w.through("b1", w.node(w.B[0]), half)
	w.wave("1", a, "0", b, "0", w.Z.Own+w.Z.Mutual)
}

func (w *lineWriter) bundle() {
	commonA, commonB := w.common("a"), w.common("b")
	for k := range w.A {
		a := w.through(fmt.Sprintf("a%d", k+1), w.node(w.A[k]), w.R.Own/2)
		b := w.through(fmt.Sprintf("b%d", k+1), w.node(w.B[k]), w.R.Own/2)
		w.wave(fmt.Sprint(k+1), a, commonA, b, commonB, w.Z.Own)
	}
	a := w.toEarth("a", commonA)
	b := w.toEarth("b", commonB)
	if w.Z.Mutual > 0 {
		w.wave("0", a, "0", b, "0", w.Z.Mutual)
	}
}

// common returns the common point of one end.
func (w *lineWriter) common(end string) string {
	if w.Z.Mutual == 0 && w.R.Mutual == 0 {
		return "0"
	}
	return w.key + "_" + end
}

// through writes the resistance at one end, if any, and returns the node behind
// it.
func (w *lineWriter) through(part, from string, ohms float64) string {
	if ohms == 0 {
		return from
	}
	to := w.key + "_" + part
	w.line("R%s %s %s %s", join(to, w.Name), from, to, number(ohms))
	return to
}

// toEarth writes the resistance between the common point of one end and the
// line to earth, or earth itself, and returns the node behind it.
func (w *lineWriter) toEarth(end, common string) string {
	if w.Z.Mutual > 0 {
		return w.through(end+"0", common, w.R.Mutual/2)
	}
	if w.R.Mutual > 0 {
		w.line("R%s %s 0 %s", join(w.key+"_"+end+"0", w.Name), common, number(w.R.Mutual/2))
	}
	return "0"
}

func (w *lineWriter) wave(part, a, commonA, b, commonB string, ohms float64) {
	w.line("T%s %s %s %s %s Z0=%s TD=%s REL=%d", join(w.key+"_"+part, w.Name), a, commonA, b, commonB, number(ohms), number(w.Delay), kink)
}
