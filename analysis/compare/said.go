package compare

import (
	"fmt"
	"math"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// Says tells a change in a line: "Panel 2: Held, 900 V L-N, 60 % of 1 500 V; then
// Unreached, no protector holds L-G".
func (c Change) Says(doc *diagram.Document) string {
	out := doc.NameOf(c.Part) + ": " + analysis.VerdictText(c.Before) + "; then " + analysis.VerdictText(c.After)
	if c.Critical {
		out += " (critical)"
	}
	return out
}

// Line is one of those that tell what a protector buys; those under another one name what that
// counts.
type Line struct {
	Text  string
	Under bool
}

// Lines tells all of what a protector buys.
func (b Bought) Lines(doc *diagram.Document, basis analysis.Basis) []Line {
	out := []Line{{Text: b.Lead()}}
	list := func(changes []Change) {
		for _, c := range changes {
			out = append(out, Line{c.Says(doc), true})
		}
	}
	list(b.Without.Verdicts)
	for _, why := range b.Reasons(doc, basis) {
		out = append(out, Line{Text: why})
	}
	out = append(out, Line{Text: b.ShortLeads(doc)})
	list(b.Short.Verdicts)
	return out
}

// Lead says in a sentence how many verdicts depend on the protector; they follow.
func (b Bought) Lead() string {
	lost, gained := b.Without.Lost(), b.Without.Gained()
	switch {
	case lost > 0 && gained > 0:
		return fmt.Sprintf("Without it %s a worse verdict, and %d a better one:", gets(lost), gained)
	case lost > 0:
		return fmt.Sprintf("Without it %s a worse verdict:", gets(lost))
	case gained > 0:
		return fmt.Sprintf("Without it %s a better verdict, and none a worse one:", gets(gained))
	}
	return "No verdict depends on it"
}

func gets(n int) string { return unit.CountOf(n, "board or load gets|boards and loads get") }

// Reasons says what else gets worse without the protector than the verdicts that it
// changes, a sentence for each, as far as it is computed: at other boards and loads,
// for other protectors, by the rules. There is one at least where no verdict gets worse.
func (b Bought) Reasons(doc *diagram.Document, basis analysis.Basis) []string {
	var out []string
	told := map[diagram.ID]bool{}
	for _, c := range b.Without.Verdicts {
		told[c.Part] = true
	}
	if c, n := worse(b.Without.Modes, func(c Change) bool { return !told[c.Part] && c.IsWorse() }); n > 0 {
		out = append(out, fmt.Sprintf("In another mode, %s: %s%s", c.Before.Mode, c.Says(doc), andMore(n)))
	}
	rises := func(c Change) bool { return !told[c.Part] && c.After.Volts > c.Before.Volts }
	if c, n := worse(b.Without.Volts, rises); n > 0 {
		out = append(out, fmt.Sprintf("It lowers %s at %s from %s to %s, within the verdict%s", c.Before.Mode, doc.NameOf(c.Part), volts(c.After.Volts), volts(c.Before.Volts), andMore(n)))
	}
	if t, n := worse(b.Without.Takes, func(t Taking) bool { return t.After > t.Before }); n > 0 {
		out = append(out, fmt.Sprintf("It takes part of the surge: without it %s has to take %s in place of %s%s", doc.NameOf(t.Protector), amperes(t.After), amperes(t.Before), andMore(n)))
	}
	for _, f := range b.Without.Findings {
		out = append(out, "Without it: "+f.What)
	}
	switch {
	case len(out) > 0 || b.Without.Lost() > 0:
	case basis == analysis.Transient:
		out = []string{"Nothing that is computed gets worse without it"}
	default:
		out = []string{"Nothing gets worse without it by the hand rule, which does not see how protectors share a surge; the transient may"}
	}
	return out
}

// worse returns the first one that meets, and how many do.
func worse[T any](all []T, meets func(T) bool) (first T, n int) {
	for _, x := range all {
		if meets(x) {
			if n == 0 {
				first = x
			}
			n++
		}
	}
	return first, n
}

// andMore ends a sentence about the first of n.
func andMore(n int) string {
	if n < 2 {
		return ""
	}
	return fmt.Sprintf("; and %d more", n-1)
}

// ShortLeads says in a sentence what leads as short as can be would do, but for the
// verdicts that they change.
func (b Bought) ShortLeads(doc *diagram.Document) string {
	if b.IsShort {
		return "Its leads are as short as can be: " + leadText(b.Length) + " at most, straight"
	}
	out := "Straight leads of " + leadText(b.Length) + " at most"
	c, n := worse(b.Short.Volts, func(c Change) bool { return c.After.Volts < c.Before.Volts })
	switch {
	case len(b.Short.Verdicts) > 0:
		return out + " change a verdict:"
	case n > 0:
		return out + fmt.Sprintf(" lower %s at %s from %s to %s, within the verdict%s", c.Before.Mode, doc.NameOf(c.Part), volts(c.Before.Volts), volts(c.After.Volts), andMore(n))
	}
	return out + " change nothing that the verdicts show"
}

func volts(v float64) string   { return analysis.FigureIn(math.Round(v), "V") }
func amperes(v float64) string { return analysis.FigureIn(analysis.Significant(v, 3), "A") }

// leadText writes a length of leads in the unit of its rule, for unit.Words.
func leadText(m float64) string {
	if m == lead.InVPR {
		return lead.Inches(m)
	}
	return analysis.FigureIn(m, "m")
}
