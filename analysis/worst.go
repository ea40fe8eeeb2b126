package analysis

import (
	"cmp"
	"fmt"
	"math"
)

// WorstFirst orders levels by what decides the verdict of a bus: those that
// are judged, the worst first. What is not known stands before what is held or
// tight, since it may be worse.
func WorstFirst(a, b Level) int {
	if a.Judged != b.Judged {
		if a.Judged {
			return -1
		}
		return 1
	}
	percentA, _ := a.Percent()
	percentB, _ := b.Percent()
	return cmp.Or(
		cmp.Compare(a.Verdict.Rank(), b.Verdict.Rank()),
		-cmp.Compare(percentA, percentB),
		-cmp.Compare(a.Volts, b.Volts),
		cmp.Compare(a.Mode, b.Mode),
	)
}

// Rank is the place of the verdict from worst, 0, to best: what is not known stands
// before what is tight or held, since it may be worse.
func (v Verdict) Rank() int {
	switch v {
	case Unreached:
		return 0
	case Exceeded:
		return 1
	case Unknown:
		return 2
	case Tight:
		return 3
	}
	return 4
}

// VerdictText says a verdict in a few words: "4 600 V L-L, 184 % of 2 500 V".
func VerdictText(l Level) string {
	percent, ok := l.Percent()
	switch {
	case ok:
		return fmt.Sprintf("%s, %s %s, %.0f %% of %s", l.Verdict, FigureIn(math.Round(l.Volts), "V"), l.Mode, percent, FigureIn(math.Round(l.Withstand), "V"))
	case l.Verdict == Unreached:
		return "Unreached, no protector holds " + l.Mode.String()
	}
	return l.Verdict.String() + ", not evaluated: " + string(l.Reason)
}
