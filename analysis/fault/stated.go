package fault

import (
	"fmt"

	"clampline/analysis"
	"clampline/analysis/conductor"
	"clampline/diagram"
)

// factsOf returns what is taken for a feeder of which the sheet does not say
// enough.
func (r rules) factsOf(f *diagram.Feeder) []fact {
	what := ""
	switch {
	case f.Area > 0 || r.point && f.Constant > 0:
		return nil
	case !stated(f):
		what = "impedance"
	case f.Resistance <= 0:
		what = "resistance"
	case f.Reactance <= 0:
		what = "reactance"
	default:
		return nil
	}
	return []fact{{f.ID, "is taken without " + what + ", the safe side: the size of its conductors is not known", noSource, true}}
}

// statedFeeder writes a feeder of which a maker's figures are typed in.
func (w *writer) statedFeeder(way *way, s diagram.System, name string) {
	f, per, unit := way.feeder, w.conductor(way.feeder, w.frequency(s))*1000, "mΩ/m"
	length := analysis.FigureIn(f.Length, "m")
	if !w.iec {
		per, unit, length = per*conductor.ThousandFeet/1000, "Ω per 1000 ft", analysis.FigureIn(f.Length/conductor.Foot, "ft")
	}
	w.ohms(analysis.Step{
		Label: name, Formula: "Z = L (R′ + j X′) / n",
		Numbers: fmt.Sprintf("%s × (%.4g + j %.4g) %s / %.0f; %s", length, real(per), imag(per), unit, parallel(f), typedIn(f)),
		Source:  w.sourceOfStated(f),
	}, way.line)
}

// typedIn says which of R and X is typed in.
func typedIn(f *diagram.Feeder) string {
	switch {
	case f.Reactance <= 0:
		return "R typed in"
	case f.Resistance <= 0:
		return "X typed in"
	}
	return "R and X typed in"
}

// sourceOfStated says where R and X come from: each as it is typed in, whatever
// the temperature and the frequency of its table, the other one from the table of
// the practice.
func (r rules) sourceOfStated(f *diagram.Feeder) string {
	rest := conductor.Source + ": " + conduitTaken(f.Raceway)
	if r.iec {
		rest = metricSource
	}
	if f.Area <= 0 {
		rest = "left out"
	}
	switch {
	case f.Reactance <= 0:
		return "R " + typedSource + ", as it stands; X: " + rest
	case f.Resistance <= 0:
		return "X " + typedSource + ", as it stands; R: " + rest
	}
	return "R and X " + typedSource + ", as they stand"
}
