package handrule

import (
	"fmt"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
)

const (
	leadsOfUp  = "DIN VDE 0100-534, from memory; check your edition"
	leadsOfVPR = "25 V per inch beyond six inches by default; common practice, no source"
)

// AtBus returns the voltage that a protector leaves at its bus in a mode, and
// how much of it its leads add, both in V, and writes that down where w is not nil.
// A rating of 0 is not known and gives 0.
func (r Rule) AtBus(p *diagram.Protector, mode diagram.Mode, w *analysis.Working) (volts, added float64) {
	rating := p.Modes[mode].Level
	if rating <= 0 {
		return 0, 0
	}
	addRating(w, p, mode)
	added = r.leadVolts(p, mode, w)
	volts = rating + added
	if w != nil {
		w.Add(analysis.Step{
			Label: "at its bus", Formula: levelName(p) + " + Ul", Result: volts, Unit: "V",
			Numbers: analysis.FigureIn(rating, "V") + " + " + analysis.FigureIn(added, "V"),
		})
	}
	return volts, added
}

// addRating tells a figure of a nameplate.
func addRating(w *analysis.Working, p *diagram.Protector, mode diagram.Mode) {
	if w != nil {
		w.Add(analysis.Step{Label: levelName(p) + " of " + nameOr(p.Name, p.ID) + ", " + mode.String(), Result: p.Modes[mode].Level, Unit: "V", Source: fromSheet})
	}
}

func levelName(p *diagram.Protector) string {
	if p.Rating == diagram.Up {
		return "Up"
	}
	return "VPR"
}

// leadVolts returns what the two leads of a mode add, V.
func (r Rule) leadVolts(p *diagram.Protector, mode diagram.Mode, w *analysis.Working) float64 {
	if w == nil {
		return r.Leads.Volts(p.Rating, lead.Of(p, mode), nil)
	}
	told := lead.Told{Working: w, Label: "leads", Source: leadsOfVPR}
	if p.Rating == diagram.Up {
		told.Source = leadsOfUp
	}
	volts := r.Leads.Volts(p.Rating, lead.Of(p, mode), &told)
	addRemarks(w, p)
	return volts
}

// addRemarks says what of the leads the rule does not count.
func addRemarks(w *analysis.Working, p *diagram.Protector) {
	if lead.Together(p) {
		w.Add(analysis.Step{
			Label: "run of the leads", Text: "they are " + string(p.Leads.Run) + ": run together they add less, which the hand rule does not count; the transient shows how much",
			Source: noSource,
		})
	}
	if p.Leads.Bends > 0 || p.Leads.Coils > 0 {
		w.Add(analysis.Step{
			Label: "bends and coils", Text: fmt.Sprintf("%d sharp bends and %d turns of slack add more, which the hand rule does not count", p.Leads.Bends, p.Leads.Coils),
			Source: noSource,
		})
	}
}

// far returns the distance from which a bus is far from a protector, m.
func (r Rule) far(p *diagram.Protector) float64 {
	if p.Rating == diagram.Up {
		return r.FarIEC
	}
	return r.FarUS
}
