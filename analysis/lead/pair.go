package lead

import (
	"slices"

	"clampline/diagram"
)

// Pair is the lengths of the two leads through which a current goes, m.
type Pair struct{ Line, Back float64 }

// Of returns the leads through which a mode acts. Between lines it is the lead of
// a line twice.
func Of(p *diagram.Protector, mode diagram.Mode) Pair {
	phase, neutral, earth := p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length
	switch mode {
	case diagram.LineNeutral:
		return Pair{phase, neutral}
	case diagram.LineEarth:
		return Pair{phase, earth}
	case diagram.NeutralEarth:
		return Pair{neutral, earth}
	}
	return Pair{phase, phase}
}

// Longest returns the lead of a line and the longest lead in use by which the
// current goes back.
func Longest(p *diagram.Protector) Pair {
	out := Pair{Line: p.Leads.Phase.Length}
	if !UsesNeutral(p) && !UsesEarth(p) {
		out.Back = out.Line
	}
	if UsesNeutral(p) {
		out.Back = p.Leads.Neutral.Length
	}
	if UsesEarth(p) {
		out.Back = max(out.Back, p.Leads.Earth.Length)
	}
	return out
}

// UsesNeutral reports whether the neutral lead is in use. Where no mode is stated
// it may be.
func UsesNeutral(p *diagram.Protector) bool {
	return uses(p, diagram.LineNeutral, diagram.NeutralEarth)
}

// UsesEarth reports the same of the earth lead.
func UsesEarth(p *diagram.Protector) bool { return uses(p, diagram.LineEarth, diagram.NeutralEarth) }

// uses reports whether the protector has something in one of the modes, or states
// none at all.
func uses(p *diagram.Protector, modes ...diagram.Mode) bool {
	has := func(mode diagram.Mode) bool { return p.Modes[mode].Connected }
	return slices.ContainsFunc(modes, has) || !slices.ContainsFunc(p.Modes[:], func(r diagram.ModeRating) bool { return r.Connected })
}

// Together reports whether the leads run together: twisted or tied.
func Together(p *diagram.Protector) bool {
	return p.Leads.Run == diagram.Bundled || p.Leads.Run == diagram.Twisted
}

// Shorten makes none of the leads longer than most, m.
func Shorten(p *diagram.Protector, most float64) {
	for _, lead := range []*diagram.Lead{&p.Leads.Phase, &p.Leads.Neutral, &p.Leads.Earth} {
		lead.Length = min(lead.Length, most)
	}
}

// Stretch makes all leads a factor longer.
func Stretch(p *diagram.Protector, factor float64) {
	for _, lead := range []*diagram.Lead{&p.Leads.Phase, &p.Leads.Neutral, &p.Leads.Earth} {
		lead.Length *= factor
	}
}

// Shortest returns the length to which each lead can usually be cut, m: what a VPR
// includes, or, where IEC counts or a Up is stated, half of the 0.5 m that line and
// earth side should have together (IEC 60364-5-53 clause 534.4.8).
func Shortest(p *diagram.Protector, iec bool) float64 {
	if iec || p.Rating == diagram.Up {
		return Preferred / 2
	}
	return InVPR
}

// Straighten cuts the leads to a length at most, and takes their sharp bends and
// turns of slack away. How they run to each other stays.
func Straighten(p *diagram.Protector, most float64) {
	Shorten(p, most)
	p.Leads.Bends, p.Leads.Coils = 0, 0
}
