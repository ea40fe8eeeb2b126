package fault

import "clampline/diagram"

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
	rest := r.conductorSource(f)
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
