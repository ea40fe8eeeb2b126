package rule

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"clampline/analysis"
	"clampline/diagram"
)

// nameplateRules look at what a nameplate says, whatever bus it is on: figures
// that contradict each other, that no listing gives, or that are missing.
func nameplateRules() []record[nameplate] {
	return about(analysis.SubjectNameplate, append([]record[nameplate]{
		tellsIf("nameplate.no mode", nameplate.noMode, sayNoMode),
		tellsAll("nameplate.no level", nameplate.noLevel, sayNoLevel),
		tellsIf("nameplate.one line", nameplate.oneLine, sayOneLine),
		tellsAll("nameplate.no neutral", nameplate.withoutNeutral, sayWithoutNeutral),
		tellsIf("nameplate.VPR or Up", nameplate.otherPractice, sayOtherPractice),
		tellsAll("nameplate.VPR", nameplate.offSteps, sayOffSteps),
		tellsAll("nameplate.below crest", nameplate.belowCrest, sayBelowCrest),
		tellsAll("nameplate.level low", nameplate.levelLow, sayLevelLow),
		tellsAll("nameplate.level high", nameplate.levelHigh, sayLevelHigh),
		tellsAll("nameplate.rating low", nameplate.ratingLow, sayRatingLow),
		tellsAll("nameplate.rating high", nameplate.ratingHigh, sayRatingHigh),
	}, currentRules()...)...)
}

// nameplate is a protector by what is printed on it.
type nameplate struct {
	diagram.Protector
	told []diagram.Mode // those of which the rules on its place tell that they do not stand it; may be nil
}

func (p nameplate) name() string {
	return cmp.Or(p.Name, string(p.ID), "The protector")
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

// noMode finds a protector without a mode: of which nothing is typed, or of which
// what is typed is not connected.
func (p nameplate) noMode() bool { return !anyProtector(p.Protector) }

func sayNoMode(p nameplate) said {
	out := said{
		severity: analysis.Warning,
		what:     p.name() + " states no mode",
		why:      "between which conductors it is connected is not known, so it counts for nothing",
		remedy:   "connect the modes that its nameplate lists, each with its level",
	}
	if p.Modes != ([diagram.ModeCount]diagram.ModeRating{}) {
		out.what = p.name() + " has no mode connected"
		out.why = "nothing is connected between its conductors, so it protects nothing"
	}
	return out
}

func (p nameplate) noLevel() []diagram.Mode {
	return p.connected(func(_ diagram.Mode, r diagram.ModeRating) bool { return r.Level <= 0 })
}

func sayNoLevel(p nameplate, modes []diagram.Mode) said {
	return said{
		severity: analysis.Warning,
		what:     p.name() + " states no level in " + listed(modes),
		why:      "without it no voltage can be computed, and the modes count for nothing",
		remedy:   "read it off the nameplate, or leave the modes out",
	}
}

// oneLine finds a mode between lines of which there is one.
func (p nameplate) oneLine() bool {
	return p.System.Lines() == 1 && p.Modes[diagram.LineLine].Connected
}

func sayOneLine(p nameplate) said {
	return said{
		severity: analysis.Warning,
		what:     p.name() + " has a mode L-L and one line",
		why:      "between lines there must be two of them",
		remedy:   "leave the mode out, or correct the system that it is made for",
	}
}

// withoutNeutral finds modes to a neutral that the protector has no terminal for.
func (p nameplate) withoutNeutral() []diagram.Mode {
	return p.connected(func(mode diagram.Mode, _ diagram.ModeRating) bool {
		toNeutral := mode == diagram.LineNeutral || mode == diagram.NeutralEarth
		return toNeutral && p.System.Known() && !p.System.Neutral
	})
}

func sayWithoutNeutral(p nameplate, modes []diagram.Mode) said {
	return said{
		severity: analysis.Warning,
		what:     p.name() + " has " + listed(modes) + ", and is made for " + p.System.String() + " without a neutral",
		why:      "the modes need a terminal for the neutral",
		remedy:   "leave the modes out, or correct the system that it is made for",
		mend: analysis.MendProtector(p.ID, "leave out "+listed(modes), "", func(p *diagram.Protector) {
			for _, mode := range modes {
				p.Modes[mode] = diagram.ModeRating{}
			}
		}),
	}
}

// otherPractice finds levels of one practice on a type of the other.
func (p nameplate) otherPractice() bool {
	return p.Type != "" && isIEC(p.Type) != (p.Rating == diagram.Up)
}

func sayOtherPractice(p nameplate) said {
	right, of := diagram.VPR, "UL 1449"
	if isIEC(p.Type) {
		right, of = diagram.Up, "IEC 61643-11"
	}
	return said{
		severity: analysis.Remark,
		what:     fmt.Sprintf("%s is %s and its levels count as %s", p.name(), p.Type, levelName(p.Protector)),
		why:      "a VPR is measured at 6 kV and 3 kA with six inches of lead, an Up at the terminals and at In: the results depend on which it is",
		remedy:   "see which of the two the nameplate states; " + of + " has " + string(right),
		source:   "UL 1449 and IEC 61643-11",
		mend:     analysis.MendProtector(p.ID, "state the levels as "+string(right), "", func(p *diagram.Protector) { p.Rating = right }),
	}
}

// vprSteps are the values of a VPR, V. The lowest and the highest are named by
// government guidance; the table is from memory.
var vprSteps = []float64{330, 400, 500, 600, 700, 800, 900, 1000, 1200, 1500, 1800, 2000, 2500, 3000, 4000, 5000, 6000}

const vprSource = "UL 1449, 4th edition, table 79.1 " + recalled

// offSteps finds a VPR that is none of the values that a listing gives.
func (p nameplate) offSteps() []diagram.Mode {
	if p.Rating == diagram.Up || isIEC(p.Type) {
		return nil
	}
	return p.connected(func(_ diagram.Mode, r diagram.ModeRating) bool {
		return r.Level > 0 && !slices.Contains(vprSteps, r.Level)
	})
}

func sayOffSteps(p nameplate, modes []diagram.Mode) said {
	severity, last := analysis.Remark, vprSteps[len(vprSteps)-1]
	for _, mode := range modes {
		if level := p.Modes[mode].Level; level < vprSteps[0] || level > last {
			severity = analysis.Warning
		}
	}
	return said{
		severity: severity,
		what:     p.name() + " states a VPR in " + listed(modes) + " that no listing gives",
		why:      "a VPR is the next of a row of values above what was measured: 330 V at least, 6 000 V at most",
		remedy:   "see whether it is a measured voltage, which is not a VPR, or a slip",
		source:   vprSource,
		working: p.working(modes, func(mode diagram.Mode) []analysis.Step {
			level := p.Modes[mode].Level
			if level > last {
				return nil
			}
			at, _ := slices.BinarySearch(vprSteps, level)
			return []analysis.Step{{Label: "next value above", Result: vprSteps[at], Unit: "V", Source: vprSource}}
		}),
	}
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

// belowCrest finds levels that do not lie above the crest of the voltage that the
// mode is stated to stand: it would conduct twice in every cycle.
func (p nameplate) belowCrest() []diagram.Mode {
	return p.connected(func(mode diagram.Mode, r diagram.ModeRating) bool {
		return r.Level > 0 && r.Level <= math.Sqrt2*p.stands(mode)
	})
}

func sayBelowCrest(p nameplate, modes []diagram.Mode) said {
	return said{
		severity: analysis.Error,
		what:     p.name() + " has a level in " + listed(modes) + " below the crest of its own continuous voltage",
		why:      "it would conduct at every crest of the supply voltage; one of the two figures is wrong",
		remedy:   "read both off the nameplate; mind volts and kilovolts, crest and rms",
		source:   "crest of a sine: √2 times its rms value",
		working: p.working(modes, func(mode diagram.Mode) []analysis.Step {
			return []analysis.Step{{
				Label: "crest, " + mode.String(), Formula: "√2 U", Numbers: "√2 × " + volts(p.stands(mode)), Result: math.Sqrt2 * p.stands(mode), Unit: "V",
			}}
		}),
	}
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

// outOfProportion returns the modes whose level is so many times their continuous
// rating as the test has it. A gap may clamp lower.
func (p nameplate) outOfProportion(is func(times float64) bool) []diagram.Mode {
	return p.connected(func(_ diagram.Mode, r diagram.ModeRating) bool {
		return r.MCOV > 0 && !r.Switching && is(r.Level/r.MCOV)
	})
}

func (p nameplate) proportion(modes []diagram.Mode) analysis.Working {
	return p.working(modes, func(mode diagram.Mode) []analysis.Step {
		r := p.Modes[mode]
		return []analysis.Step{{
			Label: "level over continuous rating, " + mode.String(), Formula: levelName(p.Protector) + " / " + ratingName(p.Protector),
			Numbers: volts(r.Level) + " / " + volts(r.MCOV), Result: 100 * (r.Level / r.MCOV), Unit: "%",
		}}
	})
}

// levelLow finds levels that are above the crest, but below what a varistor reaches.
func (p nameplate) levelLow() []diagram.Mode {
	return p.outOfProportion(func(times float64) bool { return times > math.Sqrt2 && times < lowestLevel })
}

func sayLevelLow(p nameplate, modes []diagram.Mode) said {
	rating := ratingName(p.Protector)
	return said{
		severity: analysis.Warning,
		what:     p.name() + " has a level in " + listed(modes) + " that no varistor of its " + rating + " reaches",
		why:      "at surge currents a varistor has 2.6 to 3.9 times its " + rating + "; one that clamps lower conducts in every swell",
		remedy:   "read both off the nameplate; where it is a gap, say so",
		source:   curveSource,
		working:  p.proportion(modes),
	}
}

func (p nameplate) levelHigh() []diagram.Mode {
	return p.outOfProportion(func(times float64) bool { return times > highestLevel })
}

func sayLevelHigh(p nameplate, modes []diagram.Mode) said {
	return said{
		severity: analysis.Remark,
		what:     p.name() + " has a level in " + listed(modes) + " of more than 10 times its " + ratingName(p.Protector),
		why:      "3 to 6 times is usual; one of the two may be a slip",
		remedy:   "read both off the nameplate; where it is a gap, say so",
		source:   commonPractice,
		working:  p.proportion(modes),
	}
}

// ratingLow finds continuous ratings below what the stated system has across the
// mode.
func (p nameplate) ratingLow() []diagram.Mode {
	return p.connected(func(mode diagram.Mode, r diagram.ModeRating) bool {
		return p.System.Known() && r.MCOV > 0 && r.MCOV < p.least(mode) && !slices.Contains(p.told, mode)
	})
}

func sayRatingLow(p nameplate, modes []diagram.Mode) said {
	return said{
		severity: analysis.Warning,
		what:     p.name() + " is made for " + p.System.String() + " and has " + article(ratingName(p.Protector)) + " in " + listed(modes) + " below the voltage there",
		why:      "a protector cannot be listed for a system that it does not withstand: one of the two is wrong",
		remedy:   "read both off the nameplate",
		source:   "UL 1449 and IEC 61643-11: both are declared together",
		working:  p.besideSystem(modes, p.least),
	}
}

// besideSystem sets the figures of modes beside a voltage of the stated system.
func (p nameplate) besideSystem(modes []diagram.Mode, voltage func(diagram.Mode) float64) analysis.Working {
	return p.working(modes, func(mode diagram.Mode) []analysis.Step {
		return []analysis.Step{{Label: mode.String() + " of " + p.System.String(), Result: voltage(mode), Unit: "V", Source: fromSheet}}
	})
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

func (p nameplate) ratingHigh() []diagram.Mode {
	return p.connected(func(mode diagram.Mode, r diagram.ModeRating) bool {
		nominal := p.System.ModeVoltage(mode)
		return p.System.Known() && nominal > 0 && r.MCOV > farAboveRatio*nominal
	})
}

func sayRatingHigh(p nameplate, modes []diagram.Mode) said {
	rating := article(ratingName(p.Protector))
	return said{
		severity: analysis.Remark,
		what:     p.name() + " is made for " + p.System.String() + " and has " + rating + " in " + listed(modes) + " of more than twice that",
		why:      "1.1 to 1.4 times is usual; so high " + rating + " is that of another system, or the rating of another mode",
		remedy:   "read both off the nameplate",
		source:   commonPractice,
		working:  p.besideSystem(modes, p.System.ModeVoltage),
	}
}
