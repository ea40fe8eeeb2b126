package diagram

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"
)

// Bounds of what a document may hold that is counted or stands on the sheet.
// They are far beyond any building and keep sums and pictures within ordinary
// numbers.
const (
	maxText     = 20_000 // bytes in a text
	maxPlace    = 1e6    // mm from the origin of the sheet
	maxCount    = 10_000
	maxSpan     = 10_000
	maxBelow    = 20 // per cent that an impedance may lie below its nameplate
	remedyRange = "use a number from %g to %g"
)

// number reports a value that is not an ordinary number or lies outside low
// to high.
func (c *checker) number(id ID, field string, v, low, high float64) {
	if math.IsNaN(v) || v < low || v > high {
		c.outside(id, field, v, Bounds{Low: low, High: high}, fmt.Sprintf(remedyRange, low, high))
	}
}

// unless0 reports a value that is neither 0, which stands for something of its
// own, nor within the bound.
func (c *checker) unless0(id ID, field string, v float64, b bound) {
	if v != 0 && !b.holds(v) {
		c.outside(id, field, v, b.bounds(), "use 0 or "+b.remedy())
	}
}

// above0 is unless0 for a value that 0 makes no sense for.
func (c *checker) above0(id ID, field string, v float64, b bound) {
	if !b.holds(v) {
		c.outside(id, field, v, Bounds{Low: b.low, High: b.high}, "use "+b.remedy())
	}
}

func (c *checker) text(id ID, field, s string) {
	switch {
	case len(s) > maxText:
		c.report(id, field, "the text is too long", fmt.Sprintf("use at most %d bytes", maxText))
	case !utf8.ValidString(s):
		c.report(id, field, "the text is not UTF-8", "type it again")
	}
}

// oneOf reports a word that is neither empty nor in the list.
func oneOf[T ~string](c *checker, id ID, field string, word T, list ...T) {
	if word == "" || slices.Contains(list, word) {
		return
	}
	known := make([]string, len(list))
	for i, w := range list {
		known[i] = fmt.Sprintf("%q", string(w))
	}
	c.report(id, field, fmt.Sprintf("%.40q is not known", string(word)), "use one of "+strings.Join(known, ", "))
}

func (c *checker) info(i Info) {
	c.text("", "title", i.Title)
	c.text("", "site", i.Site)
	c.text("", "author", i.Author)
	c.text("", "note", i.Note)
	c.codes(i.Codes)
}

func (c *checker) codes(v Codes) {
	oneOf(c, "", "codes.practice", v.Practice, NECPractice, IECPractice)
	oneOf(c, "", "codes.nec", v.NEC, NECEditions()...)
	oneOf(c, "", "codes.uc", v.Uc, UcNewer, UcOlder)
	oneOf(c, "", "codes.risk", v.Risk, ByRiskLevel, ByDefault)
	oneOf(c, "", "codes.fault", v.Fault, ComplexSum, PointToPoint)
	c.number("", "codes.tolerance", v.Tolerance, 0, maxBelow)
}

func (c *checker) plan(p Plan) {
	c.identity(p.ID)
	c.text(p.ID, "name", p.Name)
	c.text(p.ID, "note", p.Note)
	c.number(p.ID, "order", float64(p.Order), -maxCount, maxCount)
}

func (c *checker) part(p Part) {
	c.identity(p.ID)
	oneOf(c, p.ID, "kind", p.Kind, Kinds()...)
	if p.Kind == "" {
		c.report(p.ID, "kind", "the kind is missing", "name what the part is")
	}
	c.text(p.ID, "name", p.Name)
	c.text(p.ID, "note", p.Note)
	c.number(p.ID, "at", p.At.X, -maxPlace, maxPlace)
	c.number(p.ID, "at", p.At.Y, -maxPlace, maxPlace)
	c.number(p.ID, "turn", float64(p.Turn), 0, 3)
	c.number(p.ID, "span", p.Span, 0, maxSpan)
	c.system(p.ID, "system", p.System)
	oneOf(c, p.ID, "use", p.Use, Uses()...)
	c.groups(p)
}

func (c *checker) groups(p Part) {
	c.source(p.ID, p.Source)
	c.exposure(p.ID, p.Exposure)
	oneOf(c, p.ID, "transfer.position", p.Transfer.Position, ToNormal, ToEmergency)
	c.unless0(p.ID, "transformer.power", p.Transformer.Power, powers)
	c.unless0(p.ID, "transformer.impedance", p.Transformer.Impedance, perCents)
	c.unless0(p.ID, "transformer.xr", p.Transformer.XR, ratios)
	c.system(p.ID, "transformer.primary", p.Transformer.Primary)
	c.board(p.ID, p.Board)
	oneOf(c, p.ID, "load.connection", p.Load.Connection, ToNeutral, BetweenLines, ThreeWire, ThreeWireStar)
	c.unless0(p.ID, "load.voltage", p.Load.Voltage, voltages)
	c.unless0(p.ID, "load.power", p.Load.Power, powers)
	oneOf(c, p.ID, "load.terminals", p.Load.Terminals, TerminalKinds()...)
	c.withstand(p.ID, p.Withstand)
}

func (c *checker) source(id ID, s SourceData) {
	c.unless0(id, "source.faultCurrent", s.FaultCurrent, currents)
	c.unless0(id, "source.earthFaultCurrent", s.EarthFaultCurrent, currents)
	c.unless0(id, "source.xr", s.XR, ratios)
	c.unless0(id, "source.power", s.Power, gridPowers)
	c.unless0(id, "source.reactance", s.Reactance, reactances)
}

func (c *checker) exposure(id ID, e Exposure) {
	oneOf(c, id, "exposure.occupancy", e.Occupancy, Occupancies()...)
	oneOf(c, id, "exposure.surges", e.Surges, SurgeExposures()...)
	oneOf(c, id, "exposure.lightning", e.Lightning, LightningSystems()...)
	oneOf(c, id, "exposure.surroundings", e.Surroundings, SurroundingsKinds()...)
	c.unless0(id, "exposure.flashDensity", e.FlashDensity, flashes)
	c.unless0(id, "exposure.lowOverhead", e.LowOverhead, lengths)
	c.unless0(id, "exposure.lowCable", e.LowCable, lengths)
	c.unless0(id, "exposure.highOverhead", e.HighOverhead, lengths)
	c.unless0(id, "exposure.highCable", e.HighCable, lengths)
}

func (c *checker) board(id ID, b BoardData) {
	c.unless0(id, "board.rating", b.Rating, ratings)
	c.unless0(id, "board.mainBreaker", b.MainBreaker, ratings)
	c.number(id, "board.spaces", float64(b.Spaces), 0, maxCount)
	c.number(id, "board.freeSpaces", float64(b.FreeSpaces), 0, maxCount)
	oneOf(c, id, "board.mounting", b.Mounting, Surface, Flush)
	c.unless0(id, "board.faultCurrent", b.FaultCurrent, currents)
	c.text(id, "board.freePositions", b.FreePositions)
	c.text(id, "board.shortLead", b.ShortLead)
}

func (c *checker) withstand(id ID, w Withstand) {
	oneOf(c, id, "withstand.kind", w.Kind, ByCategory, ByMultiple, ByVolts)
	c.number(id, "withstand.category", float64(w.Category), 0, 4)
	c.unless0(id, "withstand.multiple", w.Multiple, multiples)
	c.unless0(id, "withstand.volts", w.Volts, voltages)
	if w.Kind == ByCategory && w.Category == 0 {
		c.report(id, "withstand.category", "the category is missing", "use 1, 2, 3 or 4")
	}
}

func (c *checker) system(id ID, field string, s System) {
	oneOf(c, id, field+".wiring", s.Wiring, Wirings()...)
	oneOf(c, id, field+".earthing", s.Earthing, Earthings()...)
	c.unless0(id, field+".voltage", s.Voltage, voltages)
	c.unless0(id, field+".frequency", s.Frequency, frequencies)
}

func (c *checker) feeder(f Feeder) {
	c.identity(f.ID)
	c.text(f.ID, "name", f.Name)
	c.text(f.ID, "note", f.Note)
	c.unless0(f.ID, "length", f.Length, lengths)
	c.unless0(f.ID, "area", f.Area, areas)
	c.number(f.ID, "parallel", float64(f.Parallel), 0, 100)
	oneOf(c, f.ID, "material", f.Material, Copper, Aluminium)
	oneOf(c, f.ID, "raceway", f.Raceway, Raceways()...)
	oneOf(c, f.ID, "switch.kind", f.Switch.Kind, Breaker, Fuse, Disconnect)
	c.unless0(f.ID, "switch.rated", f.Switch.Rated, ratings)
	c.number(f.ID, "switch.poles", float64(f.Switch.Poles), 0, 4)
	c.unless0(f.ID, "resistance", f.Resistance, bound{low: 1e-6, high: 1, unit: "ohm per metre"})
	c.unless0(f.ID, "reactance", f.Reactance, bound{low: 1e-6, high: 0.1, unit: "ohm per metre"})
	c.unless0(f.ID, "constant", f.Constant, bound{low: 10, high: 1e6, unit: "ft/ohm"})
	c.unless0(f.ID, "surgeImpedance", f.SurgeImpedance, bound{low: 1, high: 1e4, unit: "ohm"})
	c.unless0(f.ID, "velocity", f.Velocity, velocities)
	c.ends(f)
}

func (c *checker) ends(f Feeder) {
	c.end(f.ID, "from", f.From)
	c.end(f.ID, "to", f.To)
	if f.From.Part == f.To.Part {
		c.report(f.ID, "to", fmt.Sprintf("both ends are at %s", f.From.Part), "lead it to another part, or remove it")
	}
}

func (c *checker) end(id ID, field string, e End) {
	part, ok := c.doc.Part(e.Part)
	switch {
	case !ok:
		c.report(id, field, fmt.Sprintf("it leads to %.80q, and no part has this id", string(e.Part)), "connect it to a part, or remove it")
	case part.Kind.Valid() && !part.Kind.HasPort(e.Port):
		c.report(id, field, fmt.Sprintf("%s (%s) has no terminal %.40q", e.Part, part.Kind, string(e.Port)), portsOf(part.Kind))
	}
}

func portsOf(k Kind) string {
	ports := k.Ports()
	if len(ports) == 0 {
		return "connect it to another part"
	}
	names := make([]string, len(ports))
	for i, p := range ports {
		names[i] = fmt.Sprintf("%q", string(p))
	}
	return "use " + strings.Join(names, " or ")
}

func (c *checker) protector(p Protector) {
	c.identity(p.ID)
	c.text(p.ID, "name", p.Name)
	c.text(p.ID, "note", p.Note)
	c.number(p.ID, "offset", p.Offset, -maxSpan, maxSpan)
	oneOf(c, p.ID, "type", p.Type, Types()...)
	oneOf(c, p.ID, "rating", p.Rating, VPR, Up)
	c.system(p.ID, "system", p.System)
	for mode, r := range p.Modes {
		c.unless0(p.ID, "modes."+Mode(mode).String()+".level", r.Level, voltages)
		c.unless0(p.ID, "modes."+Mode(mode).String()+".mcov", r.MCOV, voltages)
	}
	c.ratings(p)
	c.leads(p.ID, p.Leads)
	c.place(p)
}

func (c *checker) ratings(p Protector) {
	c.unless0(p.ID, "in", p.In, currents)
	c.unless0(p.ID, "imax", p.Imax, currents)
	c.unless0(p.ID, "iimp", p.Iimp, currents)
	c.unless0(p.ID, "sccr", p.SCCR, currents)
	c.unless0(p.ID, "breaker.rated", p.Breaker.Rated, ratings)
	c.number(p.ID, "breaker.poles", float64(p.Breaker.Poles), 0, 4)
	c.unless0(p.ID, "breaker.least", p.Breaker.Least, ratings)
	c.unless0(p.ID, "breaker.most", p.Breaker.Most, ratings)
	c.unless0(p.ID, "price", p.Price, prices)
	c.unless0(p.ID, "hours", p.Hours, hours)
}

func (c *checker) leads(id ID, l Leads) {
	oneOf(c, id, "leads.run", l.Run, Separate, Bundled, Twisted)
	c.number(id, "leads.bends", float64(l.Bends), 0, maxCount)
	c.number(id, "leads.coils", float64(l.Coils), 0, maxCount)
	for _, lead := range []struct {
		field string
		Lead
	}{{"leads.phase", l.Phase}, {"leads.neutral", l.Neutral}, {"leads.earth", l.Earth}} {
		c.unless0(id, lead.field+".length", lead.Length, leadLengths)
		c.unless0(id, lead.field+".area", lead.Area, areas)
	}
}

func (c *checker) place(p Protector) {
	if part, ok := c.doc.Part(p.Bus); !ok {
		c.report(p.ID, "bus", fmt.Sprintf("it is attached to %.80q, and no part has this id", string(p.Bus)), "attach it to a board, junction or load")
	} else if part.Kind.Valid() && !part.Kind.TakesProtector() {
		c.report(p.ID, "bus", fmt.Sprintf("it is attached to %s, a %s", p.Bus, part.Kind), "attach it to a board, junction or load")
	}
	if _, ok := c.doc.Plan(p.Plan); !ok {
		c.report(p.ID, "plan", fmt.Sprintf("it belongs to %.80q, and no plan has this id", string(p.Plan)), "give it the id of a plan")
	}
}

func (c *checker) surge(s Surge) {
	c.identity(s.ID)
	c.text(s.ID, "name", s.Name)
	c.text(s.ID, "note", s.Note)
	c.number(s.ID, "order", float64(s.Order), -maxCount, maxCount)
	oneOf(c, s.ID, "path", s.Path, Paths()...)
	if s.Path == "" {
		c.report(s.ID, "path", "the path is missing", "name the conductors between which it arrives")
	}
	oneOf(c, s.ID, "wave", s.Wave, Waves()...)
	if s.Wave == "" {
		c.report(s.ID, "wave", "the wave is missing", "name its shape")
	}
	c.above0(s.ID, "voltage", s.Voltage, voltages)
	c.above0(s.ID, "current", s.Current, currents)
	c.arrival(s)
}

func (c *checker) arrival(s Surge) {
	if s.Part == "" {
		return
	}
	if part, ok := c.doc.Part(s.Part); !ok {
		c.report(s.ID, "part", fmt.Sprintf("it arrives at %.80q, and no part has this id", string(s.Part)), "name a part with terminals, or none for the supply in use")
	} else if len(part.Kind.Ports()) == 0 {
		c.report(s.ID, "part", fmt.Sprintf("it arrives at %s, a %s", s.Part, part.Kind), "name a part with terminals, or none for the supply in use")
	}
}
