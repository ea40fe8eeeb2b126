package spice

import (
	"fmt"

	"clampline/analysis/circuit"
)

// lines writes each line of m conductors as a line between every two of them and
// one from each to a common point, with the admittances of the inverse Y of its
// surge impedance: the one between i and j carries -Y_ij, the one to the
// point what is left, the sum of row i. All have one delay, so that
//
//	i_k = Y_k1 v_1 + ... + Y_km v_m - what arrives from the other end
//
// which is the matrix itself; where conductors lie behind others an admittance may
// be below zero, and the sum is as exact. Resistance of each conductor is in series with its end;
// what all share lies between the common point and earth.
func (d *deck) lines() {
	d.section(len(d.n.Lines), "lines: between every two conductors, and from each to a common point")
	for i, l := range d.n.Lines {
		if d.ended() {
			return
		}
		d.comment("%s: conductors %d, length %.4g m, delay %.4g ns", text(l.Name), len(l.A), l.Length, l.Delay*1e9)
		w := &lineWriter{deck: d, Line: l, key: fmt.Sprintf("line%d", i+1)}
		w.bundle()
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

func (w *lineWriter) bundle() {
	a, b := w.end("a", w.A), w.end("b", w.B)
	y := w.Z.Inverse(len(w.A))
	last := len(w.A)
	for i := range w.A {
		rest := 0.0
		for j := range w.A {
			rest += y[i][j]
			if j > i {
				w.wave(fmt.Sprintf("%d_%d", i+1, j+1), a[i]+" "+a[j], b[i]+" "+b[j], -y[i][j])
			}
		}
		w.wave(fmt.Sprint(i+1), a[i]+" "+a[last], b[i]+" "+b[last], rest)
	}
}

// end writes the resistances of one end and returns the nodes behind them, last
// the common point.
func (w *lineWriter) end(letter string, at []circuit.Node) []string {
	var out []string
	for k, node := range at {
		out = append(out, w.through(fmt.Sprintf("%s%d", letter, k+1), w.node(node), w.R.Own/2))
	}
	return append(out, w.through(letter+"0", "0", w.R.Mutual/2))
}

// through writes a resistance, if any, and returns the node behind it.
func (w *lineWriter) through(part, from string, ohms float64) string {
	if ohms == 0 {
		return from
	}
	to := w.key + "_" + part
	w.line("R%s %s %s %s", join(to, w.Name), from, to, number(ohms))
	return to
}

// wave writes a line of an admittance, if any.
func (w *lineWriter) wave(part, a, b string, siemens float64) {
	if siemens != 0 {
		w.line("T%s %s %s Z0=%s TD=%s REL=%d", join(w.key+"_"+part, w.Name), a, b, number(1/siemens), number(w.Delay), kink)
	}
}
