package spice

import (
	"fmt"
	"math"

	"clampline/analysis/waveform"
)

// sources writes each source as a formula of time behind its resistance.
func (d *deck) sources() {
	d.section(len(d.n.Sources), "sources: a voltage as a formula of time behind a resistance")
	for i, s := range d.n.Sources {
		d.comment("%s: %.6g V, %s", text(s.Name), s.Volts, text(s.Shape.Name))
		key := fmt.Sprintf("source%d", i+1)
		name := join(key, s.Name)
		d.line("B%s %s %s V=%s*%s", name, key, d.node(s.B), number(s.Volts), formula(s.Shape))
		d.line("R%s %s %s %s", name, key, d.node(s.A), number(s.Ohms))
	}
}

// formula returns the shape as a formula of the time, without a quotient or
// power that could overflow at its start or long after it.
func formula(s waveform.Shape) string {
	decay := fmt.Sprintf("exp(-time/%s)", number(s.Fall))
	growth := fmt.Sprintf("(1-exp(-time/%s))", number(s.Rise))
	scale := number(s.Scale)
	switch s.Form {
	case waveform.Exponential:
		return scale + "*" + growth + "*" + decay
	case waveform.Ringing:
		return fmt.Sprintf("%s*%s*%s*cos(%s*time)", scale, growth, decay, number(2*math.Pi*s.Frequency))
	case waveform.Cubic:
		return scale + "*time*time*time*" + decay
	case waveform.Heidler:
		// Over a hundred times the rise the quotient is 1 to all digits.
		x := fmt.Sprintf("pow(min(time/%s,100),10)", number(s.Rise))
		return fmt.Sprintf("%s*%s/(1+%s)*%s", scale, x, x, decay)
	}
	return "0"
}

// checkSources refuses a shape that cannot be written as a formula.
func (d *deck) checkSources() error {
	for _, s := range d.n.Sources {
		for _, x := range constants(s.Shape) {
			if !(x.value > x.above) || math.IsInf(x.value, 0) {
				return fmt.Errorf("%s: the %s of its shape is %g; it must be a number above %g", s.Name, x.what, x.value, x.above)
			}
		}
	}
	return nil
}

// constant is what a formula is made with.
type constant struct {
	what         string
	value, above float64
}

func constants(s waveform.Shape) []constant {
	all := []constant{{"scale", s.Scale, math.Inf(-1)}, {"fall", s.Fall, 0}}
	if s.Form != waveform.Cubic {
		all = append(all, constant{"rise", s.Rise, 0})
	}
	if s.Form == waveform.Ringing {
		all = append(all, constant{"frequency", s.Frequency, math.Inf(-1)})
	}
	return all
}
