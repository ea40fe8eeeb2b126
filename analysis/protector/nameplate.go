package protector

import (
	"fmt"

	"clampline/analysis/circuit"
)

// Mode is between which kinds of conductor a component is.
type Mode = circuit.Kind

// The modes, in the order of arrays by mode.
const (
	LineNeutral  = circuit.LineNeutral
	LineEarth    = circuit.LineEarth
	NeutralEarth = circuit.NeutralEarth
	LineLine     = circuit.LineLine
	ModeCount    = circuit.KindCount
)

// Rating is which measured voltage the levels of a nameplate are.
type Rating int

// The ratings. The zero value is VPR.
const (
	VPR Rating = iota // voltage protection rating, UL 1449
	Up                // voltage protection level, IEC 61643-11
)

// ModePlate is what a nameplate states of one mode.
type ModePlate struct {
	Connected bool
	Level     float64 // V, VPR or Up; above zero where it is connected
	MCOV      float64 // V rms, MCOV or Uc; 0 not known
	Switching bool    // a spark gap or gas tube rather than a varistor
}

// Nameplate is what a protector states, as far as a surge is concerned. It can
// be compared and is the key of a map of models.
type Nameplate struct {
	Rating  Rating
	Lines   int // 1 to 3
	Neutral bool
	Modes   [ModeCount]ModePlate
	In      float64 // A, nominal discharge current 8/20, for Up; 0 stands for 5 kA
}

const (
	testVolts   = 6000.0 // V, open crest of the test of a VPR
	testOhms    = 2.0    // ohm, of its generator
	usualIn     = 5000.0 // A: the least that IEC 60364-5-53 clause 534 asks for (from memory)
	leadOfTest  = 0.1524 // m, 6 in
	perRated    = 3.0    // level over rated voltage where no MCOV is stated (derived from the curves)
	mostVolts   = 1e6    // V, beyond which a number is a slip
	mostAmperes = 1e6    // A
)

// current returns that of the test, A.
func (p Nameplate) current() float64 {
	switch {
	case p.Rating == VPR:
		return testVolts / testOhms
	case p.In > 0:
		return p.In
	}
	return usualIn
}

// rated returns the voltage, V rms, that the varistors of a mode stand for ever.
func (m ModePlate) rated() float64 {
	if m.MCOV > 0 {
		return m.MCOV
	}
	return m.Level / perRated
}

// Error is why no model can be found of a nameplate, and how to mend it.
type Error struct{ What, Remedy string }

// Error says both.
func (e Error) Error() string { return e.What + "; " + e.Remedy }

// check returns what is wrong with the nameplate, or nil.
func (p Nameplate) check() error {
	switch {
	case p.Rating != VPR && p.Rating != Up:
		return Error{"the rating is none of VPR and Up", "choose one"}
	case p.Lines < 1 || p.Lines > 3:
		return Error{fmt.Sprintf("the protector is for %d lines", p.Lines), "there must be 1 to 3"}
	case !(p.In >= 0 && p.In <= mostAmperes):
		return Error{fmt.Sprintf("the nominal discharge current is %g A", p.In), fmt.Sprintf("state one up to %g A, or none", mostAmperes)}
	}
	connected := false
	for mode := range Mode(ModeCount) {
		if p.Modes[mode].Connected {
			connected = true
			if err := p.checkMode(mode); err != nil {
				return err
			}
		}
	}
	if !connected {
		return Error{"the protector has no mode", "connect one"}
	}
	return nil
}

func (p Nameplate) checkMode(mode Mode) error {
	plate := p.Modes[mode]
	wrong := func(remedy, what string, values ...any) error {
		return Error{fmt.Sprintf("mode %s: ", mode) + fmt.Sprintf(what, values...), remedy}
	}
	switch {
	case !(plate.Level > 0 && plate.Level <= mostVolts):
		return wrong(fmt.Sprintf("state one above zero, up to %g V", mostVolts), "the level is %g V", plate.Level)
	case !(plate.MCOV >= 0 && plate.MCOV <= mostVolts):
		return wrong(fmt.Sprintf("state one up to %g V, or none", mostVolts), "the MCOV is %g V", plate.MCOV)
	case !(mode == LineEarth || p.Neutral || mode == LineLine):
		return wrong("leave the mode out", "the protector has no neutral")
	case mode == LineLine && p.Lines < 2:
		return wrong("leave the mode out", "the protector has one line only")
	}
	return nil
}

// conductors returns the letters of what the protector can be connected to,
// earth aside.
func (p Nameplate) conductors() string {
	out := "ABC"[:p.Lines]
	if p.Neutral {
		out += "N"
	}
	return out
}

// link is a pair of conductors that a mode joins.
type link struct {
	mode     Mode
	from, to byte
}

// links returns the pairs that the protector joins where only some conductors,
// and earth, are there: mode by mode.
func (p Nameplate) links(letters string) []link {
	lines, neutral := letters, ""
	if last := len(letters) - 1; last >= 0 && letters[last] == 'N' {
		lines, neutral = letters[:last], "N"
	}
	var out []link
	add := func(mode Mode, from, to string) {
		for i := range from {
			for j := range to {
				if p.Modes[mode].Connected && (mode != LineLine || i < j) {
					out = append(out, link{mode, from[i], to[j]})
				}
			}
		}
	}
	add(LineNeutral, lines, neutral)
	add(LineEarth, lines, "G")
	add(NeutralEarth, neutral, "G")
	add(LineLine, lines, lines)
	return out
}
