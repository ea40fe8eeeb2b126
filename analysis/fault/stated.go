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
		return "R"
	case f.Resistance <= 0:
		return "X"
	}
	return "R and X"
}

// sourceOfStated says where R and X come from: each as it is typed in, whatever
// the temperature and the frequency of its table, the other one from the table of
// the practice.
func (r rules) sourceOfStated(f *diagram.Feeder) string {
	typed := typedIn(f)
	other := map[string]string{"R": "X", "X": "R"}[typed]
	switch {
	case other == "":
		return typed + " " + typedSource + ", as they stand"
	case f.Area <= 0:
		return typed + " " + typedSource + ", as it stands; " + other + ": left out"
	}
	return typed + " " + typedSource + ", as it stands; " + other + ": " + r.conductorSource(f)
}
