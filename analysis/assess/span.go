package assess

import (
	"fmt"
	"math"

	"clampline/analysis/extract"
	"clampline/diagram"
)

// span is a figure that nobody knows for sure, somewhere on the way through its
// range from 0 to 1.
type span struct {
	record diagram.ID
	what   string                       // within a sentence, before "of" and the name of the record
	source string                       // of the range, with how wide it is
	tries  []float64                    // where it lies when it is moved alone; nil for both ends
	set    func(*extract.Vary, float64) // at a place on its way
}

// The ranges. Those of a share hold for that much more and less.
const (
	// clampShare is the usual tolerance class of varistors, K (IEC 61051-2 and makers'
	// codes, from memory).
	clampShare = 0.10
	// leadShare: a sheet does not say which lengths were measured, so all of them are
	// taken for estimates (common practice, no source).
	leadShare = 0.25
	// crestShare is the tolerance of the open-circuit voltage and the short-circuit
	// current of a surge generator (IEC 61000-4-5, from memory); what lightning makes
	// is another thing.
	crestShare = 0.10
	// layShare holds for conductors that are held in their places by a cable, a metal
	// tube or a busway (common practice, no source).
	layShare = 0.15
	// Loose wires count as they lie apart in a conduit; touching ones have 0.50 to 0.58
	// of that inductance (derived: 0.2 µH/m acosh(D/d) of the insulated wires of
	// protector.InsulatedDiameter, against NFPA 70 chapter 9 table 9, 14 AWG to
	// 500 kcmil). Spread wider than the table has them they have a little more.
	tightLay, spreadLay = 0.55, 1.10
)

// mainsTries are the moments at which the mains is tried alone: crests of either
// polarity of all three lines are among them.
var mainsTries = []float64{0, 1. / 6, 2. / 6, 3. / 6, 4. / 6, 5. / 6}

// spansOf returns the figures of a plan that nobody knows for sure.
func spansOf(doc *diagram.Document, plan diagram.ID) []span {
	out := []span{crestSpan(crestShare), mainsSpan()}
	for p := range doc.ProtectorsOf(plan) {
		out = append(out, clampSpan(p.ID, clampShare), leadSpan(p.ID, leadShare))
	}
	for f := range doc.Feeders() {
		if low, high := layRange(f); f.SurgeImpedance <= 0 {
			out = append(out, laySpan(f.ID, low, high))
		}
	}
	for part := range doc.Parts() {
		if extract.IsUnstated(part) {
			out = append(out, loadSpan(part.ID))
		}
	}
	return out
}

// between returns the factor at a place on the way from low to high.
func between(low, high, at float64) float64 { return low + at*(high-low) }

// within words a range of a share to either side.
func within(share float64) string { return fmt.Sprintf("±%.0f %%", 100*share) }

func crestSpan(share float64) span {
	return span{what: "crest of the surge", source: within(share) + ": the tolerance of a surge generator, IEC 61000-4-5, from memory", set: func(v *extract.Vary, at float64) { v.Crest = between(1-share, 1+share, at) }}
}

// mainsSpan is the mains at any moment of its turn, and so of either polarity.
func mainsSpan() span {
	return span{what: "mains at the moment of the surge", source: "any moment of its turn", tries: mainsTries, set: func(v *extract.Vary, at float64) {
		angle := 2 * math.Pi * at
		v.Mains = &angle
	}}
}

func clampSpan(id diagram.ID, share float64) span {
	return span{record: id, what: "varistor voltage", source: within(share) + ": the tolerance class K of varistors, IEC 61051-2, from memory", set: func(v *extract.Vary, at float64) { v.Clamps[id] = between(1-share, 1+share, at) }}
}

func leadSpan(id diagram.ID, share float64) span {
	return span{record: id, what: "lead length", source: within(share) + ": no length counts as measured; common practice, no source", set: func(v *extract.Vary, at float64) { v.Leads[id] = between(1-share, 1+share, at) }}
}

// layRange returns the factors of the inductance of a feeder, by how its conductors
// may lie.
func layRange(f diagram.Feeder) (low, high float64) {
	if f.Lay == "" && f.HasLay() {
		return tightLay, spreadLay
	}
	return 1 - layShare, 1 + layShare
}

func laySpan(id diagram.ID, low, high float64) span {
	source := fmt.Sprintf("%.0f to %.0f %% of the inductance: wires that touch, or spread; derived, and NFPA 70 chapter 9 table 9; stating how they lie narrows this", 100*low, 100*high)
	if low != tightLay {
		source = within(high-1) + " of the inductance: common practice, no source"
	}
	return span{record: id, what: "lay of the conductors", source: source, set: func(v *extract.Vary, at float64) { v.Feeders[id] = between(low, high, at) }}
}

// loadSpan is a load of which nothing is stated: open on one half of the way, with
// an input filter on the other.
func loadSpan(id diagram.ID) span {
	return span{record: id, what: "load behaviour", source: "not stated: open, or with an input filter; stating it narrows this", set: func(v *extract.Vary, at float64) {
		v.Terminals[id] = diagram.OpenTerminals
		if at >= 0.5 {
			v.Terminals[id] = diagram.FilteredTerminals
		}
	}}
}

// vary returns what lies off where each figure is at a place on its way. One that is
// not a number stays as the sheet has it.
func vary(spans []span, at []float64) *extract.Vary {
	out := &extract.Vary{
		Clamps: map[diagram.ID]float64{}, Leads: map[diagram.ID]float64{}, Feeders: map[diagram.ID]float64{}, Terminals: map[diagram.ID]diagram.Terminals{},
	}
	for i, s := range spans {
		if !math.IsNaN(at[i]) {
			s.set(out, at[i])
		}
	}
	return out
}

// alone returns the places of all figures where one is moved and the others stay.
func alone(spans []span, moved int, at float64) []float64 {
	out := make([]float64, len(spans))
	for i := range out {
		out[i] = math.NaN()
	}
	out[moved] = at
	return out
}

// triesOf returns where a figure lies when it is moved alone.
func (s span) triesOf() []float64 {
	if s.tries == nil {
		return []float64{0, 1}
	}
	return s.tries
}
