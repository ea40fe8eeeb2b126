package rule

import (
	"fmt"
	"math"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// nameplateRules look at what a nameplate says, whatever bus it is on: figures
// that contradict each other, that no listing gives, or that are missing. Modes
// of which the rules on its place tell that they do not stand it are named by
// told, which may be nil.
func nameplateRules(protector diagram.Protector, told []diagram.Mode) []analysis.Finding {
	p := nameplate{protector, told}
	var out []analysis.Finding
	for _, look := range []func() []analysis.Finding{
		p.connections, p.practice, p.steps, p.crest, p.floor, p.contradiction, p.farAbove, p.currents, p.currentSteps, p.shortCircuitSteps,
	} {
		out = append(out, look()...)
	}
	return out
}

// nameplate is a protector by what is printed on it.
type nameplate struct {
	diagram.Protector
	told []diagram.Mode // those whose rating another finding tells of
}

func (p nameplate) name() string {
	if p.Name != "" {
		return p.Name
	}
	if p.ID != "" {
		return string(p.ID)
	}
	return "The protector"
}

// finding begins one on the nameplate.
func (p nameplate) finding(severity analysis.Severity, what, why, remedy, source string) analysis.Finding {
	return analysis.Finding{
		Severity: severity, Subject: analysis.SubjectNameplate,
		What: p.name() + " " + what, Why: why, Remedy: remedy, Source: source,
	}
}

// connected returns the connected modes of which something holds.
func (p nameplate) connected(holds func(diagram.Mode, diagram.ModeRating) bool) []diagram.Mode {
	var out []diagram.Mode
	for _, mode := range diagram.Modes() {
		if rating := p.Modes[mode]; rating.Connected && holds(mode, rating) {
			out = append(out, mode)
		}
	}
	return out
}

// working lists the level and the continuous rating of modes.
func (p nameplate) working(modes []diagram.Mode, more func(diagram.Mode) []analysis.Step) analysis.Working {
	var out analysis.Working
	for _, mode := range modes {
		if level := p.Modes[mode].Level; level > 0 {
			out = append(out, analysis.Step{Label: levelName(p.Protector) + " " + mode.String(), Result: level, Unit: "V", Source: fromSheet})
		}
		if mcov := p.Modes[mode].MCOV; mcov > 0 {
			out = append(out, analysis.Step{Label: ratingName(p.Protector) + " " + mode.String(), Result: mcov, Unit: "V", Source: fromSheet})
		}
		out = append(out, more(mode)...)
	}
	return out
}

// connections finds modes without a level, and modes between conductors that
// the protector has no terminals for.
func (p nameplate) connections() []analysis.Finding {
	any := p.connected(func(diagram.Mode, diagram.ModeRating) bool { return true })
	if len(any) == 0 {
		return []analysis.Finding{p.noMode()}
	}
	var out []analysis.Finding
	if modes := p.connected(func(_ diagram.Mode, r diagram.ModeRating) bool { return r.Level <= 0 }); len(modes) > 0 {
		out = append(out, p.finding(analysis.Warning, "states no level in "+listed(modes),
			"without it no voltage can be computed, and the modes count for nothing",
			"read it off the nameplate, or leave the modes out", ""))
	}
	own := p.System
	twoLines := own.Lines() == 1 && p.Modes[diagram.LineLine].Connected
	if twoLines {
		out = append(out, p.finding(analysis.Warning, "has a mode L-L and one line",
			"between lines there must be two of them", "leave the mode out, or correct the system that it is made for", ""))
	}
	return append(out, p.withoutNeutral()...)
}

// noMode is the finding on a protector without a mode: of which nothing is
// typed, or of which what is typed is not connected.
func (p nameplate) noMode() analysis.Finding {
	f := p.finding(analysis.Warning, "states no mode",
		"between which conductors it is connected is not known, so it counts for nothing",
		"connect the modes that its nameplate lists, each with its level", "")
	if p.Modes != ([diagram.ModeCount]diagram.ModeRating{}) {
		f.What = p.name() + " has no mode connected"
		f.Why = "nothing is connected between its conductors, so it protects nothing"
	}
	return f
}

func (p nameplate) withoutNeutral() []analysis.Finding {
	if !p.System.Known() || p.System.Neutral {
		return nil
	}
	modes := p.connected(func(mode diagram.Mode, _ diagram.ModeRating) bool {
		return mode == diagram.LineNeutral || mode == diagram.NeutralEarth
	})
	if len(modes) == 0 {
		return nil
	}
	f := p.finding(analysis.Warning, "has "+listed(modes)+", and is made for "+p.System.String()+" without a neutral",
		"the modes need a terminal for the neutral", "leave the modes out, or correct the system that it is made for", "")
	f.Mend = analysis.MendProtector(p.ID, "leave out "+listed(modes), "", func(p *diagram.Protector) {
		for _, mode := range modes {
			p.Modes[mode] = diagram.ModeRating{}
		}
	})
	return []analysis.Finding{f}
}

// practice finds levels of one practice on a type of the other.
func (p nameplate) practice() []analysis.Finding {
	iecLevel := p.Rating == diagram.Up
	if p.Type == "" || isIEC(p.Type) == iecLevel {
		return nil
	}
	right, of := diagram.VPR, "UL 1449"
	if isIEC(p.Type) {
		right, of = diagram.Up, "IEC 61643-11"
	}
	f := p.finding(analysis.Remark, fmt.Sprintf("is %s and its levels count as %s", p.Type, levelName(p.Protector)),
		"a VPR is measured at 6 kV and 3 kA with six inches of lead, an Up at the terminals and at In: the results depend on which it is",
		"see which of the two the nameplate states; "+of+" has "+string(right), "UL 1449 and IEC 61643-11")
	f.Mend = analysis.MendProtector(p.ID, "state the levels as "+string(right), "", func(p *diagram.Protector) { p.Rating = right })
	return []analysis.Finding{f}
}

// vprSteps are the values of a VPR, V. The lowest and the highest are named by
// government guidance; the table is from memory.
var vprSteps = []float64{330, 400, 500, 600, 700, 800, 900, 1000, 1200, 1500, 1800, 2000, 2500, 3000, 4000, 5000, 6000}

const vprSource = "UL 1449, 4th edition, table 79.1 " + recalled

// steps finds a VPR that is none of the values that a listing gives.
func (p nameplate) steps() []analysis.Finding {
	if p.Rating == diagram.Up || isIEC(p.Type) {
		return nil
	}
	modes := p.connected(func(_ diagram.Mode, r diagram.ModeRating) bool {
		return r.Level > 0 && !slices.Contains(vprSteps, r.Level)
	})
	if len(modes) == 0 {
		return nil
	}
	last := vprSteps[len(vprSteps)-1]
	f := p.finding(analysis.Remark, "states a VPR in "+listed(modes)+" that no listing gives",
		"a VPR is the next of a row of values above what was measured: 330 V at least, 6 000 V at most",
		"see whether it is a measured voltage, which is not a VPR, or a slip", vprSource)
	f.Working = p.working(modes, func(mode diagram.Mode) []analysis.Step {
		level := p.Modes[mode].Level
		if level > last {
			return nil
		}
		at, _ := slices.BinarySearch(vprSteps, level)
		return []analysis.Step{{Label: "next value above", Result: vprSteps[at], Unit: "V", Source: vprSource}}
	})
	for _, mode := range modes {
		if level := p.Modes[mode].Level; level < vprSteps[0] || level > last {
			f.Severity = analysis.Warning
		}
	}
	return []analysis.Finding{f}
}

// stands returns what a mode is stated to stand for ever, V rms: by its rating,
// or else by the system that the protector is made for; 0 where neither tells.
func (p nameplate) stands(mode diagram.Mode) float64 {
	if mcov := p.Modes[mode].MCOV; mcov > 0 {
		return mcov
	}
	if !p.System.Known() {
		return 0
	}
	return p.System.ModeVoltage(mode)
}

// crest finds levels that do not lie above the crest of the voltage that the
// mode is stated to stand: it would conduct twice in every cycle.
func (p nameplate) crest() []analysis.Finding {
	modes := p.connected(func(mode diagram.Mode, r diagram.ModeRating) bool {
		return r.Level > 0 && r.Level <= math.Sqrt2*p.stands(mode)
	})
	if len(modes) == 0 {
		return nil
	}
	f := p.finding(analysis.Error, "has a level in "+listed(modes)+" below the crest of its own continuous voltage",
		"it would conduct at every crest of the supply voltage; one of the two figures is wrong",
		"read both off the nameplate; mind volts and kilovolts, crest and rms", "crest of a sine: √2 times its rms value")
	f.Working = p.working(modes, func(mode diagram.Mode) []analysis.Step {
		return []analysis.Step{{
			Label: "crest, " + mode.String(), Formula: "√2 U", Numbers: "√2 × " + volts(p.stands(mode)), Result: math.Sqrt2 * p.stands(mode), Unit: "V",
		}}
	})
	return []analysis.Finding{f}
}

const (
	// lowestLevel is the least ratio of level to continuous rating that a varistor
	// reaches. Typical curves have 1.56 to 1.66 at 1 mA and 2.6 to 3.9 at 3 kA
	// (Kronberger, thesis, Graz University of Technology, 1994/95); that of the
	// largest block, less 10 % of spread and then some, is 2.
	lowestLevel = 2.0
	// highestLevel is the ratio beyond which one of the two is doubtful (common
	// practice, no source): the usual ones are 3 to 6.
	highestLevel = 10.0
)

const curveSource = "typical curves of varistors: P. Kronberger, thesis, Graz University of Technology, 1994/95"

// floor finds levels that are above the crest but out of proportion to the
// continuous rating. A gap may clamp lower.
func (p nameplate) floor() []analysis.Finding {
	ratio := func(r diagram.ModeRating) float64 { return r.Level / r.MCOV }
	low := p.connected(func(_ diagram.Mode, r diagram.ModeRating) bool {
		return r.MCOV > 0 && !r.Switching && r.Level > math.Sqrt2*r.MCOV && ratio(r) < lowestLevel
	})
	high := p.connected(func(_ diagram.Mode, r diagram.ModeRating) bool {
		return r.MCOV > 0 && !r.Switching && ratio(r) > highestLevel
	})
	step := func(mode diagram.Mode) []analysis.Step {
		r := p.Modes[mode]
		return []analysis.Step{{
			Label: "level over continuous rating, " + mode.String(), Formula: levelName(p.Protector) + " / " + ratingName(p.Protector),
			Numbers: volts(r.Level) + " / " + volts(r.MCOV), Result: 100 * ratio(r), Unit: "%",
		}}
	}
	rating := ratingName(p.Protector)
	var out []analysis.Finding
	if len(low) > 0 {
		f := p.finding(analysis.Warning, "has a level in "+listed(low)+" that no varistor of its "+rating+" reaches",
			"at surge currents a varistor has 2.6 to 3.9 times its "+rating+"; one that clamps lower conducts in every swell",
			"read both off the nameplate; where it is a gap, say so", curveSource)
		f.Working = p.working(low, step)
		out = append(out, f)
	}
	if len(high) > 0 {
		f := p.finding(analysis.Remark, "has a level in "+listed(high)+" of more than 10 times its "+rating,
			"3 to 6 times is usual; one of the two may be a slip", "read both off the nameplate; where it is a gap, say so", commonPractice)
		f.Working = p.working(high, step)
		out = append(out, f)
	}
	return out
}

// contradiction finds continuous ratings below what the stated system has
// across the mode.
func (p nameplate) contradiction() []analysis.Finding {
	if !p.System.Known() {
		return nil
	}
	modes := p.connected(func(mode diagram.Mode, r diagram.ModeRating) bool {
		return r.MCOV > 0 && r.MCOV < p.least(mode) && !slices.Contains(p.told, mode)
	})
	if len(modes) == 0 {
		return nil
	}
	rating := ratingName(p.Protector)
	f := p.finding(analysis.Warning, "is made for "+p.System.String()+" and has "+article(rating)+" in "+listed(modes)+" below the voltage there",
		"a protector cannot be listed for a system that it does not withstand: one of the two is wrong", "read both off the nameplate",
		"UL 1449 and IEC 61643-11: both are declared together")
	f.Working = p.working(modes, func(mode diagram.Mode) []analysis.Step {
		return []analysis.Step{{Label: mode.String() + " of " + p.System.String(), Result: p.least(mode), Unit: "V", Source: fromSheet}}
	})
	return []analysis.Finding{f}
}

// least returns the least continuous rating that goes with the stated system. A
// nameplate for a high-leg delta gives that of the ordinary lines as well, and
// one that states no earthing may mean a held one.
func (p nameplate) least(mode diagram.Mode) float64 {
	own := p.System
	ofOneLine := mode == diagram.LineNeutral || mode == diagram.LineEarth
	if ofOneLine && own.Wiring == diagram.HighLeg || mode == diagram.LineEarth && own.Earthing == "" {
		return own.LineToNeutral()
	}
	return own.ModeVoltage(mode)
}

// farAboveRatio is the ratio of a continuous rating to the nominal voltage from
// which it is that of another system (common practice, no source): the usual
// ones are 1.1 to 1.9, the highest that of a protector for 230 V that stands IT.
const farAboveRatio = 2.2

func (p nameplate) farAbove() []analysis.Finding {
	if !p.System.Known() {
		return nil
	}
	modes := p.connected(func(mode diagram.Mode, r diagram.ModeRating) bool {
		nominal := p.System.ModeVoltage(mode)
		return nominal > 0 && r.MCOV > farAboveRatio*nominal
	})
	if len(modes) == 0 {
		return nil
	}
	rating := ratingName(p.Protector)
	f := p.finding(analysis.Remark, "is made for "+p.System.String()+" and has "+article(rating)+" in "+listed(modes)+" of more than twice that",
		"1.1 to 1.4 times is usual; so high "+article(rating)+" is that of another system, or the rating of another mode", "read both off the nameplate",
		commonPractice)
	f.Working = p.working(modes, func(mode diagram.Mode) []analysis.Step {
		return []analysis.Step{{Label: mode.String() + " of " + p.System.String(), Result: p.System.ModeVoltage(mode), Unit: "V", Source: fromSheet}}
	})
	return []analysis.Finding{f}
}
