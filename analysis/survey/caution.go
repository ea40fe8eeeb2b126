package survey

import (
	"strings"

	"clampline/analysis/mark"
	"clampline/diagram/unit"
)

// Cautions returns what stands on every sheet and table: the caution of the
// program, and what keeps people safe on site. The latter are the practice of
// OSHA 29 CFR 1910.333, NFPA 70E and the DOE electrical safety handbook; the
// clauses are from memory, so check your edition.
func Cautions(c unit.Convention) []string {
	earth := unit.EarthWord(c)
	return []string{
		"De-energise before a cover comes off: open every source, lock out and tag, and verify that no voltage is left with a rated tester " +
			"that was proved right before and right after, between all lines and to " + earth + ". Switches, push buttons and interlocks alone isolate nothing.",
		"With the main breaker off, what is connected on its line side stays live, a line-side protector among it.",
		mark.EverySource + " Protectors with capacitors hold a charge.",
		"Nobody but a qualified person opens a cover or measures behind one. Everyone else writes down what can be read with all covers on.",
		"An indicator lamp is a sign, not a proof. A wrong voltage rating is a common mistake: copy nameplates in full.",
		mark.Caution,
	}
}

// cautionText returns the cautions as one text, a line to each.
func cautionText(c unit.Convention) string { return strings.Join(Cautions(c), "\n") }
