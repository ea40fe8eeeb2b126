package handrule

import (
	"fmt"

	"clampline/analysis"
	"clampline/diagram"
)

// ratings is what the protectors on one bus give there, mode by mode.
type ratings struct {
	best    [diagram.ModeCount]*rating  // the lowest that counts
	inOne   [diagram.ModeCount]*cover   // the lowest of two in series in one protector
	refused [diagram.ModeCount]*refused // the first that does not
	unrated [diagram.ModeCount]*refused // the first that would count but for its rating
}

func (s *solver) ratings(host *place, on []*diagram.Protector) *ratings {
	out, bus := &ratings{}, host.node.System
	lines := analysis.LinesOf(*host.part, bus)
	for _, protector := range on {
		var own [diagram.ModeCount]*rating
		for _, mode := range diagram.Modes() {
			if bus.Known() && !bus.HasMode(mode) {
				continue
			}
			switch reason := refusal(protector, mode, bus, lines); reason {
			case "":
				volts, added := s.rule.AtBus(protector, mode, nil)
				own[mode] = &rating{protector, mode, volts, added}
				if out.best[mode] == nil || volts < out.best[mode].volts {
					out.best[mode] = own[mode]
				}
			default:
				out.refuse(mode, &refused{protector: protector, reason: reason})
			}
		}
		out.noteSeries(s, &own)
	}
	return out
}

// noteSeries keeps what two modes of one protector give in series where it is
// lower than that of those before: which of several is the best in one mode alone
// does not tell, since the two share their leads.
func (r *ratings) noteSeries(s *solver, own *[diagram.ModeCount]*rating) {
	for _, mode := range diagram.Modes() {
		for _, pair := range spans(mode) {
			if own[pair[0]] == nil || own[pair[1]] == nil {
				continue
			}
			sum := s.series(mode, *own[pair[0]], *own[pair[1]], nil)
			if r.inOne[mode] == nil || sum.volts < r.inOne[mode].volts {
				r.inOne[mode] = &sum
			}
		}
	}
}

// refuse notes a protector that does not count. One that merely has nothing
// in the mode gives way to one with something wrong.
func (r *ratings) refuse(mode diagram.Mode, why *refused) {
	if why.reason == analysis.NoRating && r.unrated[mode] == nil {
		r.unrated[mode] = why
	}
	before := r.refused[mode]
	if before == nil || before.reason == analysis.MissingMode && why.reason != analysis.MissingMode {
		r.refused[mode] = why
	}
}

// refusal returns what stands in the way of a mode, or nil. Where it would be
// spanned but for a rating that is not stated, that is what is missing.
func (r *ratings) refusal(mode diagram.Mode) *refused {
	out := r.refused[mode]
	if out == nil || out.reason != analysis.MissingMode {
		return out
	}
	for _, pair := range spans(mode) {
		a, b := r.unrated[pair[0]], r.unrated[pair[1]]
		if a != nil && (b != nil || r.best[pair[1]] != nil) {
			return &refused{protector: a.protector, reason: analysis.NoRating}
		}
		if b != nil && r.best[pair[0]] != nil {
			return &refused{protector: b.protector, reason: analysis.NoRating}
		}
	}
	return out
}

// cover returns the lowest voltage in a mode: by one protector, or by two
// modes in series, of which one may be the bond of neutral and earth. It is
// nil where nothing spans the mode.
func (s *solver) cover(r *ratings, mode diagram.Mode, bonded bool) *cover {
	var out *cover
	if own := r.best[mode]; own != nil {
		out = &cover{volts: own.volts, added: own.added, first: *own}
	}
	if sum := r.inOne[mode]; sum != nil && (out == nil || sum.volts < out.volts) {
		out = sum
	}
	for _, pair := range spans(mode) {
		first, second := r.best[pair[0]], r.best[pair[1]]
		sum := &cover{}
		switch {
		case first == nil:
			continue
		case bonded && pair[1] == diagram.NeutralEarth:
			*sum = cover{volts: first.volts, added: first.added, first: *first, bond: true}
		case second == nil:
			continue
		default:
			*sum = s.series(mode, *first, *second, nil)
		}
		if out == nil || sum.volts < out.volts {
			out = sum
		}
	}
	return out
}

// arcVolts is what stands across a gap that has fired, V: 10 to 25 V whatever
// the current (ITU-T K.12, from memory).
const arcVolts = 25.0

// series returns what two ratings in series give in the mode that they span.
// Within one protector the current passes the two leads of that mode and no
// other: from line to earth through line to neutral and neutral to earth it does
// not come out at the neutral lead. Between two protectors it passes all the
// leads of both.
//
// A gap holds it all until it fires, since its capacitance is far below that of
// a varistor, and nearly nothing from then on: the higher of the two counts.
// Without a gap the two add up.
func (s *solver) series(mode diagram.Mode, a, b rating, w *analysis.Working) cover {
	out := cover{mode: mode, first: a, second: b}
	addRating(w, a.protector, a.mode)
	if a.protector == b.protector {
		if a.mode != b.mode {
			addRating(w, b.protector, b.mode)
		}
		out.added = s.rule.leadVolts(a.protector, mode, w)
	} else {
		out.added = s.rule.leadVolts(a.protector, a.mode, w)
		addRating(w, b.protector, b.mode)
		out.added += s.rule.leadVolts(b.protector, b.mode, w)
	}
	out.volts = inSeries(a, b, out.added, w)
	return out
}

// inSeries returns what two ratings in series come to, V, with what leads add.
func inSeries(a, b rating, added float64, w *analysis.Working) float64 {
	gap, other := a.stated(), b.stated()
	if b.isGap() {
		gap, other = other, gap
	}
	fires := a.isGap() != b.isGap()
	stated := a.stated() + b.stated()
	if fires {
		stated = max(gap, other+arcVolts)
	}
	volts := stated + added
	switch figure := analysis.FigureIn; {
	case w == nil:
	case fires:
		w.Add(analysis.Step{
			Label: "in series with a gap", Formula: "max(Eg, E + Ua) + Ul", Result: volts, Unit: "V",
			Numbers: fmt.Sprintf("max(%s, %s + %s) + %s", figure(gap, "V"), figure(other, "V"), figure(arcVolts, "V"), figure(added, "V")),
			Source:  "the gap holds all until it fires, and its arc then 10 to 25 V: ITU-T K.12, from memory",
		})
	default:
		w.Add(analysis.Step{
			Label: "in series", Formula: "E1 + E2 + Ul", Result: volts, Unit: "V", Source: kirchhoff,
			Numbers: figure(a.stated(), "V") + " + " + figure(b.stated(), "V") + " + " + figure(added, "V"),
		})
	}
	return volts
}

// stated returns the rating on the nameplate, V.
func (r rating) stated() float64 { return r.protector.Modes[r.mode].Level }

func (r rating) isGap() bool { return r.protector.Modes[r.mode].Switching }
