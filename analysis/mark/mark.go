package mark

import (
	"fmt"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/draw"
	"clampline/diagram/scene"
	"clampline/diagram/unit"
)

// Caution stands in the program, on every export and in the read-me.
const Caution = "Estimates for planning; not a substitute for the listing, the maker's instructions or a study by a licensed engineer. " +
	"Work on electrical equipment only de-energised, locked out and verified by qualified persons; " +
	"local codes and the authority having jurisdiction decide."

// EverySource stands on what people take to a board: a drawing need not show all that
// feeds it.
const EverySource = "A generator, a solar inverter or a UPS may feed back: look for every source."

// Of returns the marks of a result that was made from the document.
func Of(doc *diagram.Document, result *analysis.Result, convention unit.Convention) scene.Marks {
	out := scene.Marks{
		Parts:      make(map[diagram.ID]scene.Mark, len(result.Buses)),
		Feeders:    make(map[diagram.ID]scene.FeederMark, len(result.Feeders)),
		Breaks:     make(map[diagram.ID]string, len(result.Breaks)),
		Protectors: map[diagram.ID][]string{},
		Badges:     badges(doc, result),
		Legend:     legend(),
	}
	for id, bus := range result.Buses {
		mark := busMark(bus, convention)
		if result.Due > 0 {
			mark.Lines[0] += notFinal
		}
		out.Parts[id] = mark
	}
	for id, feeder := range result.Feeders {
		out.Feeders[id] = scene.FeederMark{Pieces: pieces(feeder.Samples, result.Basis)}
	}
	if result.Basis != analysis.Transient { // a solved surge goes on through transformers, and the colours say how far
		out.Legend = append(out.Legend, scene.LegendEntry{Text: "Protection stops here", Break: true})
		for _, b := range result.Breaks {
			out.Breaks[b.ID] = "protection stops here"
		}
	}
	for p := range doc.ProtectorsOf(result.Plan) {
		out.Protectors[p.ID] = protectorLines(p, convention)
		if fails(result, p.ID) {
			out.Protectors[p.ID] = append(out.Protectors[p.ID], "fails in a surge")
		}
	}
	return out
}

// notFinal follows a figure that may still change, since surges are still being solved.
const notFinal = " …"

// fails reports whether a surge case destroys a protector.
func fails(result *analysis.Result, protector diagram.ID) bool {
	return slices.ContainsFunc(result.Surges, func(s analysis.SurgeResult) bool { return slices.Contains(s.Failed, protector) })
}

// badges counts the errors and warnings at each record that is drawn. What a
// finding on the cover would say again stands on the tag.
func badges(doc *diagram.Document, result *analysis.Result) map[diagram.ID]scene.Badge {
	out := map[diagram.ID]scene.Badge{}
	for _, finding := range result.Findings {
		if finding.Severity == analysis.Remark || finding.Subject == analysis.SubjectCover {
			continue
		}
		at := slices.IndexFunc(finding.Records, func(id diagram.ID) bool { return isDrawn(doc, result.Plan, id) })
		if at < 0 {
			continue
		}
		badge := out[finding.Records[at]]
		badge.Count++
		badge.Wrong = badge.Wrong || finding.Severity == analysis.Error
		out[finding.Records[at]] = badge
	}
	return out
}

// isDrawn reports whether the drawing of a plan shows the record.
func isDrawn(doc *diagram.Document, plan, id diagram.ID) bool {
	if p, ok := doc.Protector(id); ok {
		return p.Plan == plan
	}
	_, isPart := doc.Part(id)
	_, isFeeder := doc.Feeder(id)
	return isPart || isFeeder
}

// Style returns the colour and the pattern of a verdict.
func Style(v analysis.Verdict) (draw.Role, draw.Dash) {
	switch v {
	case analysis.Held:
		return draw.RoleHeld, draw.Solid
	case analysis.Tight:
		return draw.RoleTight, draw.LongDash
	case analysis.Exceeded:
		return draw.RoleExceeded, draw.Double
	case analysis.Unreached:
		return draw.RoleUnreached, draw.Hatched
	}
	return draw.RoleUnknown, draw.Dotted
}

func legend() []scene.LegendEntry {
	var out []scene.LegendEntry
	for _, v := range analysis.Verdicts() {
		role, dash := Style(v)
		out = append(out, scene.LegendEntry{Role: role, Dash: dash, Letter: v.Letter(), Text: v.String()})
	}
	return append(out,
		scene.LegendEntry{Text: "More findings, an error", Badge: scene.Badge{Count: 1, Wrong: true}},
		scene.LegendEntry{Text: "More findings, a warning", Badge: scene.Badge{Count: 1}})
}

func busMark(bus analysis.BusResult, c unit.Convention) scene.Mark {
	worst := bus.Worst()
	role, dash := Style(worst.Verdict)
	system := ""
	if bus.System.Known() {
		system = bus.System.String()
	}
	return scene.Mark{Role: role, Dash: dash, Letter: worst.Verdict.Letter(), System: system, Lines: []string{tagLine(worst, c)}}
}

// tagLine is the line under the name: "1 240 V L-G · 31 %", or why there is no
// number.
func tagLine(l analysis.Level, c unit.Convention) string {
	mode := unit.ModeWord(l.Mode.String(), c)
	if !l.Known {
		return short(l.Reason, mode, c)
	}
	line := unit.Format(l.Volts, unit.Voltage, c) + " " + mode
	if percent, ok := l.Percent(); ok {
		return line + fmt.Sprintf(" · %.0f %%", percent)
	}
	return line + " · withstand not known"
}

func short(reason analysis.Reason, mode string, c unit.Convention) string {
	switch reason {
	case analysis.NoProtector:
		return "no protector reaches it"
	case analysis.PastTransformer:
		return "beyond a transformer"
	case analysis.PastSwitch:
		return "beyond an open switch"
	case analysis.Downstream:
		return "no protector on its way"
	case analysis.WrongVoltage:
		return "protector of the wrong voltage"
	case analysis.WrongEarthing:
		return "protector for another " + unit.Terms("earthing", c)
	case analysis.WrongPhases:
		return "protector lacks a conductor"
	case analysis.MissingMode:
		return mode + " has no protector"
	case analysis.NoRating:
		return "protector's rating not known"
	}
	return string(reason)
}

func protectorLines(p diagram.Protector, c unit.Convention) []string {
	var out []string
	if p.Name != "" {
		out = append(out, p.Name)
	}
	rating := p.Rating
	if rating == "" {
		rating = diagram.VPR
	}
	line := "rating not known"
	if level := lowestLevel(p); level > 0 {
		line = string(rating) + " " + unit.Format(level, unit.Voltage, c)
	}
	longest := max(p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length)
	return append(out, line, "lead "+unit.Format(longest, unit.LeadLength, c))
}

func lowestLevel(p diagram.Protector) float64 {
	low := 0.0
	for _, r := range p.Modes {
		if r.Connected && r.Level > 0 && (low == 0 || r.Level < low) {
			low = r.Level
		}
	}
	return low
}

// pieces colours a feeder along its length, joining neighbours that look alike.
// The samples of the hand rule lie where the verdict turns, at its very limit, so
// that the stretch up to it is as good as its better end; those of a transient lie
// anywhere, and each speaks for the stretch halfway to its neighbours.
func pieces(samples []analysis.Sample, basis analysis.Basis) []scene.Piece {
	var out []scene.Piece
	for i := 1; i < len(samples); i++ {
		a, b := samples[i-1], samples[i]
		if basis == analysis.Transient {
			halfway := (a.Share + b.Share) / 2
			out = appendPiece(out, a.Share, halfway, a.Verdict)
			out = appendPiece(out, halfway, b.Share, b.Verdict)
			continue
		}
		out = appendPiece(out, a.Share, b.Share, min(a.Verdict, b.Verdict)) // of which Unknown is the least
	}
	return out
}

func appendPiece(pieces []scene.Piece, from, to float64, v analysis.Verdict) []scene.Piece {
	role, dash := Style(v)
	if last := len(pieces) - 1; last >= 0 && pieces[last].Role == role {
		pieces[last].To = to
		return pieces
	}
	return append(pieces, scene.Piece{From: from, To: to, Role: role, Dash: dash})
}
