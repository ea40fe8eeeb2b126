package report

import (
	"math"
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/analysis/lead"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// In this file causes are put into words for an owner, who knows nothing of the trade.

// flashesOver is where wiring devices flash over, V: more than that the models don't
// know (IEEE C62.41.2-2002, from memory).
const flashesOver = 6e3

// ownerVolts is a voltage as an owner reads it: of three figures, and no more than the
// models know.
func (w *Work) ownerVolts(v float64) string {
	if v > flashesOver {
		return "over " + w.voltage(flashesOver)
	}
	return w.voltage(analysis.Significant(v, 3))
}

// gets is the voltage of a level as an owner reads it, against what the place is made
// for: rounding never makes one of two that differ.
func (w *Work) gets(l analysis.Level) (gets, made string) {
	gets, made = "no protection", "not known"
	if l.Withstand > 0 {
		made = w.voltage(analysis.Significant(l.Withstand, 3))
	}
	if l.Known {
		if gets = w.ownerVolts(l.Volts); gets == made && l.Verdict == analysis.Exceeded {
			gets, made = w.voltage(math.Ceil(l.Volts)), w.voltage(math.Floor(l.Withstand))
		}
	}
	return gets, made
}

// ownerVerdict is a verdict in an owner's words.
func ownerVerdict(v analysis.Verdict) string {
	switch v {
	case analysis.Held:
		return "protected"
	case analysis.Tight:
		return "little to spare"
	case analysis.Exceeded:
		return "more than it is made for"
	case analysis.Unreached:
		return "no protection"
	}
	return "cannot be told"
}

// isBad reports whether a level is what an owner must know of.
func isBad(l analysis.Level) bool {
	return l.Verdict == analysis.Exceeded || l.Verdict == analysis.Unreached
}

// worst returns the places of a state that are not protected: critical ones first, then
// those without protection, then by how far the voltage is above what they are made for.
func (s *State) worst() []diagram.Part {
	var out []diagram.Part
	for _, part := range s.Result.Downward(s.Document) {
		if isBad(s.Result.Buses[part.ID].Worst()) {
			out = append(out, part)
		}
	}
	slices.SortStableFunc(out, func(a, b diagram.Part) int {
		if a.Load.Critical != b.Load.Critical {
			if a.Load.Critical {
				return -1
			}
			return 1
		}
		return analysis.WorstFirst(s.Result.Buses[a.ID].Worst(), s.Result.Buses[b.ID].Worst())
	})
	return out
}

// cause is why a level is what it is.
type cause struct {
	*Work
	state   *State
	part    diagram.Part
	level   analysis.Level // by the hand rule, with its working
	decides analysis.Level // on the basis of the work
	spd     diagram.Protector
	has     bool // there is such a protector
}

// why says in a sentence why a place gets what it gets. The figures in it are those of
// the working.
func (w *Work) why(s *State, part diagram.Part) string {
	c := cause{Work: w, state: s, part: part, decides: s.Result.Buses[part.ID].Worst()}
	bus := s.causes[part.ID]
	c.level = bus.Worst()
	for _, l := range bus.Levels {
		if l.Mode == c.decides.Mode {
			c.level = l
		}
	}
	c.spd, c.has = s.Document.Protector(c.level.Protector)
	if s.Result.Basis == analysis.Transient && c.level.Verdict.Rank() > c.decides.Verdict.Rank() {
		return c.solved()
	}
	return c.sentence()
}

// solved says why a surge exceeds where the hand rule sees no cause.
func (c cause) solved() string {
	switch origin, ok := c.state.Document.Part(c.decides.Origin); {
	case c.decides.Reason == analysis.Destroyed:
		return "The strongest surge that was computed destroys a protector on the way, and then nothing limits it."
	case ok && origin.ID == c.part.ID:
		return "A surge that begins right here meets it before any protector does."
	case ok:
		return "A surge that begins at " + c.name(origin.ID) + " reaches it over the wiring; no protector lies near enough to limit it."
	}
	return "A surge over the supply reaches it, and what protects the building does not limit it enough."
}

// at says where the protector is: "at Fume hoods".
func (c cause) at() string {
	if !c.has {
		return ""
	}
	if c.spd.Bus == c.part.ID {
		return "here"
	}
	return "at " + c.name(c.spd.Bus)
}

// sentence says the reason of the hand rule.
func (c cause) sentence() string {
	earth := c.earth()
	switch c.level.Reason {
	case analysis.NoProtector:
		return "There is no surge protector here, nor on the way to it."
	case analysis.PastTransformer:
		return "The nearest protector, " + c.at() + ", is on the other side of a transformer, and what it does ends there."
	case analysis.PastSwitch:
		return "It is cut off from the rest by an open switch; once that is closed, nothing protects it."
	case analysis.Downstream:
		return "The only protector, " + c.at() + ", comes after it as seen from the supply, and does not guard what comes before."
	case analysis.WrongVoltage:
		return "The protector " + c.at() + " is made for another voltage, and does not count."
	case analysis.WrongEarthing:
		return "The protector " + c.at() + " is not made for the way in which the wiring here is connected to " + earth + ", and does not count."
	case analysis.WrongPhases:
		return "The protector " + c.at() + " leaves out one of the wires, which then has no protection."
	case analysis.MissingMode:
		return "The protector " + c.at() + " has nothing " + c.between() + ", and so leaves that way open."
	case analysis.LongLeads:
		return c.longLeads()
	case analysis.AtProtector, analysis.JustBelow:
		return "The protector " + c.at() + " lets more through than this is made for."
	case analysis.NearProtector, analysis.Distance:
		return c.far()
	case analysis.NearBond:
		return "Nothing limits what arises between neutral and " + earth + " on the long way from where the two are joined."
	}
	return "What is on the drawing does not tell enough."
}

// between says a mode in words.
func (c cause) between() string {
	switch c.level.Mode {
	case diagram.LineNeutral:
		return "between a live wire and the neutral"
	case diagram.LineEarth:
		return "between a live wire and " + c.earth()
	case diagram.NeutralEarth:
		return "between the neutral and " + c.earth()
	}
	return "between two live wires"
}

// longLeads says what the leads add, with the figure of the working.
func (c cause) longLeads() string {
	added := c.figure("leads")
	pair := lead.Of(&c.spd, c.level.Mode)
	wire := c.leadLength(max(pair.Line, pair.Back))
	out := "The protector " + c.at() + " hangs on " + wire + " of wire"
	if added <= 0 {
		return out + "."
	}
	return out + ", which alone adds " + c.ownerVolts(added) + " to what it lets through."
}

// far says how far away the nearest protector is.
func (c cause) far() string {
	away := unit.Format(c.figure("length of feeders from "), unit.Length, c.Convention)
	if c.level.Reason == analysis.NearProtector {
		return "The nearest protector, " + c.at() + ", is " + away + " away; what it lets through rises along the wire, and is too much for this."
	}
	return "The nearest protector, " + c.at() + ", is " + away + " away, too far: the voltage rises along the wire, up to twice what the protector lets through."
}

// figure returns that of the first step of the working whose label begins so, or 0.
func (c cause) figure(label string) float64 {
	for _, s := range c.level.Working {
		if strings.HasPrefix(s.Label, label) && !math.IsNaN(s.Result) {
			return s.Result
		}
	}
	return 0
}
