package diagramtest

import (
	"fmt"
	"math"
	"math/rand/v2"

	"clampline/diagram"
	"clampline/diagram/geom"
)

// Rand returns a source of random numbers that depends on the seed alone.
func Rand(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 1)) }

// Random returns a valid document of about the given number of parts in which
// every field can be set, to plain or to extreme values, and feeders lie at
// random: there are loops, parts fed by nothing and sources that meet.
func Random(rng *rand.Rand, parts int) *diagram.Document {
	doc := diagram.New()
	Shake(rng, doc, parts)
	return doc
}

// Shake makes one random change to the document that adds about the given
// number of parts, with feeders and protectors, replaces some records and
// removes a few. It returns the change.
func Shake(rng *rand.Rand, doc *diagram.Document, parts int) diagram.Change {
	change, err := doc.Edit(func(tx *diagram.Tx) error {
		s := shaker{rng, tx}
		s.remove()
		for range parts {
			tx.SetPart(s.part())
		}
		if rng.IntN(3) == 0 {
			tx.SetPlan(diagram.Plan{ID: tx.NewPlanID(), Name: s.word(), Note: s.word(), Order: rng.IntN(9)})
		}
		ends, hosts := s.all(hasPorts), s.all(diagram.Kind.TakesProtector)
		for range parts {
			s.feeder(ends)
		}
		for range parts/2 + 1 {
			s.protector(hosts)
		}
		for range 1 + rng.IntN(3) {
			s.surge()
		}
		tx.SetInfo(diagram.Info{Title: s.word(), Site: s.word(), Author: s.word(), Note: s.word(), Codes: s.codes()})
		return nil
	})
	if err != nil {
		panic(fmt.Sprintf("diagramtest: a random change was refused: %v", err))
	}
	return change
}

type shaker struct {
	*rand.Rand
	tx *diagram.Tx
}

func pick[T any](s shaker, list []T) T { return list[s.IntN(len(list))] }

// maybe returns a value of the list or, one time in four, the zero value.
func maybe[T any](s shaker, list []T) T {
	if s.IntN(4) == 0 {
		var zero T
		return zero
	}
	return pick(s, list)
}

// number returns 0 or a value from low to high as above0 does.
func (s shaker) number(low, usual, high float64) float64 {
	if s.IntN(6) == 0 {
		return 0
	}
	return s.above0(low, usual, high)
}

// above0 returns a value up to usual in most cases, else one of the bounds.
func (s shaker) above0(low, usual, high float64) float64 {
	switch s.IntN(8) {
	case 0:
		return low
	case 1:
		return high
	}
	return max(low, usual*math.Pow(s.Float64(), 3))
}

// place returns millimetres on the sheet.
func (s shaker) place(most float64) float64 { return s.number(most*1e-9, most, most) }

func (s shaker) word() string {
	return pick(s, []string{"", "Panel", "Main <board> & \"co\"", "Größe µ Ω", "a\nb", "Pump house", "長い", " edge "})
}

// system returns one of the presets in most cases, else any, or one that says
// nothing.
func (s shaker) system() diagram.System {
	switch s.IntN(6) {
	case 0:
		return diagram.System{}
	case 1:
		return diagram.System{
			Wiring:    maybe(s, diagram.Wirings()),
			Voltage:   s.number(1e-3, 40e3, 1e6),
			Neutral:   s.IntN(2) == 0,
			Earthing:  maybe(s, diagram.Earthings()),
			Frequency: s.number(0.01, 60, 1e5),
		}
	}
	return pick(s, diagram.Presets()).System
}

func (s shaker) part() diagram.Part {
	kind := pick(s, diagram.Kinds())
	p := diagram.Part{
		ID: s.tx.NewPartID(kind), Kind: kind, Name: s.word(), Note: s.word(),
		At: geom.Pt(s.place(900), s.place(900)), Turn: s.IntN(4),
	}
	switch {
	case kind.IsSource():
		p.System = s.system()
		p.Source = diagram.SourceData{
			FaultCurrent: s.number(1e-6, 2e5, 1e6), EarthFaultCurrent: s.number(1e-6, 2e5, 1e6), XR: s.number(1e-9, 20, 1e6), Power: s.number(1e-3, 1e6, 1e12), Reactance: s.number(0.01, 30, 1000),
		}
		if kind == diagram.Supply {
			p.Exposure = s.exposure()
		}
	case kind == diagram.Transformer:
		p.System = s.system()
		p.Transformer = diagram.TransformerData{
			Power: s.number(1e-3, 1e6, 1e10), Primary: s.system(), Impedance: s.number(0.01, 9, 100), XR: s.number(1e-9, 9, 1e6),
			Screen: s.IntN(2) == 0, Auto: s.IntN(4) == 0,
		}
	case kind == diagram.TransferSwitch:
		p.Transfer = diagram.TransferData{
			Position:        maybe(s, []diagram.Position{diagram.ToNormal, diagram.ToEmergency}),
			SwitchesNeutral: s.IntN(2) == 0,
		}
	case kind.IsBoard():
		s.board(&p)
	case kind == diagram.Load:
		p.Load = diagram.LoadData{
			Connection: maybe(s, []diagram.Connection{diagram.ToNeutral, diagram.BetweenLines, diagram.ThreeWire, diagram.ThreeWireStar}),
			Voltage:    s.number(1e-3, 700, 1e6), Power: s.number(1e-3, 1e5, 1e10), Critical: s.IntN(2) == 0, Motor: s.IntN(4) == 0,
			Terminals: maybe(s, diagram.TerminalKinds()),
		}
		p.Withstand = s.withstand()
		p.Use = maybe(s, diagram.Uses())
	}
	return p
}

func (s shaker) codes() diagram.Codes {
	return diagram.Codes{
		Practice:  maybe(s, []diagram.Practice{diagram.NECPractice, diagram.IECPractice}),
		NEC:       maybe(s, diagram.NECEditions()),
		Uc:        maybe(s, []diagram.UcTable{diagram.UcNewer, diagram.UcOlder}),
		Risk:      maybe(s, []diagram.RiskMethod{diagram.ByRiskLevel, diagram.ByDefault}),
		Fault:     maybe(s, []diagram.FaultMethod{diagram.ComplexSum, diagram.PointToPoint}),
		Tolerance: s.number(1e-3, 20, 20),
	}
}

func (s shaker) exposure() diagram.Exposure {
	return diagram.Exposure{
		Occupancy: maybe(s, diagram.Occupancies()), Declined: s.IntN(4) == 0,
		Surges: maybe(s, diagram.SurgeExposures()), Lightning: maybe(s, diagram.LightningSystems()),
		Surroundings: maybe(s, diagram.SurroundingsKinds()), FlashDensity: s.number(1e-3, 60, 1000),
		LowOverhead: s.number(1e-3, 2e3, 1e5), LowCable: s.number(1e-3, 2e3, 1e5), HighOverhead: s.number(1e-3, 2e3, 1e5), HighCable: s.number(1e-3, 2e3, 1e5),
		LinesEnd: s.IntN(4) == 0,
	}
}

func (s shaker) board(p *diagram.Part) {
	p.Span = s.number(1e-3, 200, 200)
	p.Board = diagram.BoardData{
		Rating: s.number(1e-3, 4000, 1e5), MainBreaker: s.number(1e-3, 4000, 1e5), Spaces: s.IntN(42), FreeSpaces: s.IntN(9),
		Mounting: maybe(s, []diagram.Mounting{diagram.Surface, diagram.Flush}),
		Service:  s.IntN(3) == 0, Bonded: s.IntN(3) == 0, Structure: s.IntN(3) == 0,
		FaultCurrent: s.number(1e-6, 2e5, 1e6), FreePositions: s.word(), ShortLead: s.word(),
	}
	p.Withstand = s.withstand()
	p.Use = maybe(s, diagram.Uses())
	if s.IntN(4) == 0 {
		p.System = s.system()
	}
}

func (s shaker) withstand() diagram.Withstand {
	return pick(s, []diagram.Withstand{
		{},
		{Kind: diagram.ByCategory, Category: 1 + s.IntN(4)},
		{Kind: diagram.ByMultiple, Multiple: s.number(1e-3, 9, 1000)},
		{Kind: diagram.ByVolts, Volts: s.number(1e-3, 9000, 1e6)},
	})
}

func hasPorts(k diagram.Kind) bool { return len(k.Ports()) > 0 }

// all returns the parts that the test accepts.
func (s shaker) all(accept func(diagram.Kind) bool) []diagram.Part {
	var out []diagram.Part
	for p := range s.tx.Document().Parts() {
		if accept(p.Kind) {
			out = append(out, p)
		}
	}
	return out
}

func (s shaker) feeder(parts []diagram.Part) {
	if len(parts) < 2 {
		return
	}
	from, to := pick(s, parts), pick(s, parts)
	if from.ID == to.ID {
		return
	}
	s.tx.SetFeeder(diagram.Feeder{
		ID: s.tx.NewFeederID(), Name: s.word(), Note: s.word(),
		From:   diagram.End{Part: from.ID, Port: pick(s, from.Kind.Ports())},
		To:     diagram.End{Part: to.ID, Port: pick(s, to.Kind.Ports())},
		Length: s.number(1e-6, 1e3, 1e5), Area: s.number(1e-9, 3e-4, 1), Parallel: s.IntN(4),
		Material: maybe(s, []diagram.Material{diagram.Copper, diagram.Aluminium}),
		Raceway:  maybe(s, diagram.Raceways()),
		Switch: diagram.SwitchData{
			Kind: maybe(s, []diagram.SwitchKind{diagram.Breaker, diagram.Fuse, diagram.Disconnect}),
			Open: s.IntN(3) == 0, Rated: s.number(1e-3, 1000, 1e5), Poles: s.IntN(4), Residual: s.IntN(4) == 0,
		},
		Resistance: s.number(1e-6, 0.01, 1), Reactance: s.number(1e-6, 0.001, 0.1), Constant: s.number(10, 3e4, 1e6),
		SurgeImpedance: s.number(1, 300, 1e4), Velocity: s.number(1e7, 2e8, 2.998e8),
	})
}

func (s shaker) protector(hosts []diagram.Part) {
	if len(hosts) == 0 {
		return
	}
	p := diagram.Protector{
		ID: s.tx.NewProtectorID(), Plan: pick(s, s.tx.Document().Plans()).ID, Bus: pick(s, hosts).ID,
		Name: s.word(), Note: s.word(), Offset: s.place(40) - 20,
		Type: maybe(s, diagram.Types()), Rating: maybe(s, []diagram.Rating{diagram.VPR, diagram.Up}),
		System: s.system(), In: s.number(1e-6, 2e4, 1e6), Imax: s.number(1e-6, 1e5, 1e6), Iimp: s.number(1e-6, 25e3, 1e6), SCCR: s.number(1e-6, 2e5, 1e6),
		Breaker: diagram.BreakerData{
			Rated: s.number(1e-3, 60, 1e5), Poles: s.IntN(4), Shared: s.IntN(2) == 0, Least: s.number(1e-3, 30, 1e5), Most: s.number(1e-3, 400, 1e5),
		},
		External: s.IntN(2) == 0, Price: s.number(1e-6, 900, 1e12), Hours: s.number(1e-6, 8, 1e6),
		Leads: diagram.Leads{
			Phase: s.lead(), Neutral: s.lead(), Earth: s.lead(),
			Run: maybe(s, []diagram.Run{diagram.Separate, diagram.Bundled, diagram.Twisted}), Bends: s.IntN(4), Coils: s.IntN(3),
			Steel: s.IntN(4) == 0, SteelBonded: s.IntN(4) == 0,
		},
	}
	for mode := range p.Modes {
		p.Modes[mode] = diagram.ModeRating{Connected: s.IntN(4) > 0, Level: s.number(1e-3, 4e3, 1e6), MCOV: s.number(1e-3, 900, 1e6), Switching: s.IntN(4) == 0}
	}
	s.tx.SetProtector(p)
}

func (s shaker) lead() diagram.Lead {
	return diagram.Lead{Length: s.number(1e-6, 3, 1000), Area: s.number(1e-9, 3e-5, 1)}
}

// surge adds a surge case, in most cases at a part.
func (s shaker) surge() {
	parts := s.all(hasPorts)
	ids := make([]diagram.ID, len(parts))
	for i, p := range parts {
		ids[i] = p.ID
	}
	surge := diagram.Surge{
		ID: s.tx.NewSurgeID(), Name: s.word(), Note: s.word(), Order: s.IntN(9),
		Path: pick(s, diagram.Paths()), Wave: pick(s, diagram.Waves()),
		Voltage: s.above0(1e-3, 1e4, 1e6), Current: s.above0(1e-6, 1e4, 1e6),
	}
	if len(ids) > 0 {
		surge.Part = maybe(s, ids)
	}
	s.tx.SetSurge(surge)
}

// remove takes away about one part in eight with what hangs on it, moves
// about one in four, and takes away about one surge case in eight.
func (s shaker) remove() {
	for _, surge := range s.tx.Document().Surges() {
		if s.IntN(8) == 0 {
			s.tx.Remove(surge.ID)
		}
	}
	for _, p := range s.all(func(diagram.Kind) bool { return true }) {
		switch s.IntN(8) {
		case 0:
			s.tx.Remove(p.ID)
		case 1, 2:
			p.At = p.At.Add(geom.Pt(5, 5))
			s.tx.SetPart(p)
		}
	}
}
