package assess_test

import (
	"fmt"
	"math/rand/v2"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/geom"
)

// plausible draws buildings as people have them, each of another kind: trees
// of 3 to 40 buses of every system, with transformers or without, and one to
// six protectors that fit where they are.
type plausible struct {
	*rand.Rand
	tx      *diagram.Tx
	parts   int
	systems map[diagram.ID]diagram.System
	hosts   []diagram.End // what feeders can be led from
}

// plausibleBuilding returns the building of a seed.
func plausibleBuilding(seed uint64) *diagram.Document {
	rng := diagramtest.Rand(seed)
	presets := diagram.Presets()
	system := presets[seed%uint64(len(presets))].System
	doc := diagram.New()
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		b := &plausible{Rand: rng, tx: tx, systems: map[diagram.ID]diagram.System{}}
		b.build(system, 3+rng.IntN(38))
		return nil
	})
	if err != nil {
		panic(err)
	}
	if _, err := doc.Edit(func(tx *diagram.Tx) error { protect(rng, tx, doc); return nil }); err != nil {
		panic(err)
	}
	return doc
}

func (b *plausible) add(kind diagram.Kind, system diagram.System, set func(*diagram.Part)) diagram.ID {
	b.parts++
	p := diagram.Part{ID: diagram.ID(fmt.Sprintf("%s-%d", kind, b.parts)), Kind: kind, Name: fmt.Sprintf("%s %d", kind, b.parts), At: geom.Pt(float64(20*b.parts), 0)}
	set(&p)
	b.tx.SetPart(p)
	b.systems[p.ID] = system
	return p.ID
}

func (b *plausible) feed(from diagram.End, to diagram.ID, port diagram.Port) {
	sizes := []float64{3.31e-6, 8.37e-6, 33.6e-6, 107e-6}
	b.tx.SetFeeder(diagram.Feeder{
		ID: b.tx.NewFeederID(), From: from, To: diagram.End{Part: to, Port: port},
		Length: 0.5 + 60*b.Float64()*b.Float64(), Area: sizes[b.IntN(len(sizes))],
		Raceway: diagram.Raceways()[b.IntN(len(diagram.Raceways()))], Parallel: 1 + b.IntN(2),
	})
}

func (b *plausible) build(system diagram.System, buses int) {
	supply := b.add(diagram.Supply, system, func(p *diagram.Part) {
		p.System = system
		p.Source.FaultCurrent = 5e3 + 30e3*b.Float64()
	})
	main := b.add(diagram.Switchboard, system, func(p *diagram.Part) {
		p.Board = diagram.BoardData{Service: true, Bonded: system.Earthing.HoldsNeutral() && b.IntN(2) == 0}
	})
	b.feed(diagram.End{Part: supply}, main, "")
	b.hosts = append(b.hosts, diagram.End{Part: main})
	for b.parts < buses {
		from := b.hosts[b.IntN(len(b.hosts))]
		switch {
		case b.IntN(7) == 0 && b.parts+2 <= buses:
			b.transformer(from)
		case b.IntN(2) == 0:
			b.load(from)
		default:
			panel := b.add(diagram.Panel, b.systems[from.Part], func(*diagram.Part) {})
			b.feed(from, panel, "")
			b.hosts = append(b.hosts, diagram.End{Part: panel})
		}
	}
}

func (b *plausible) transformer(from diagram.End) {
	above := b.systems[from.Part]
	var fitting []diagram.System
	for _, p := range diagram.Presets() {
		if p.System.Voltage < above.Voltage && (above.Phases() == 3 || p.System.Phases() == 1) {
			fitting = append(fitting, p.System)
		}
	}
	if len(fitting) == 0 {
		return
	}
	below := fitting[b.IntN(len(fitting))]
	t := b.add(diagram.Transformer, below, func(p *diagram.Part) {
		p.System = below
		p.Transformer = diagram.TransformerData{Power: 15e3 + 200e3*b.Float64(), Primary: above, Impedance: 3 + 3*b.Float64(), XR: 1 + 3*b.Float64(), Screen: b.IntN(2) == 0}
		p.Transformer.Primary.Neutral = above.Neutral && b.IntN(2) == 0
	})
	b.feed(from, t, diagram.Primary)
	b.hosts = append(b.hosts, diagram.End{Part: t, Port: diagram.Secondary})
}

func (b *plausible) load(from diagram.End) {
	system := b.systems[from.Part]
	load := b.add(diagram.Load, system, func(p *diagram.Part) {
		p.Load = diagram.LoadData{Power: 500 + 2e4*b.Float64(), Terminals: diagram.TerminalKinds()[b.IntN(3)]}
		if system.Neutral && b.IntN(2) == 0 {
			p.Load.Connection = diagram.ToNeutral
		}
		p.Withstand = diagram.Withstand{Kind: diagram.ByCategory, Category: 2}
	})
	b.feed(from, load, "")
}

// protect attaches one to six protectors to boards, the first to the main one.
func protect(rng *rand.Rand, tx *diagram.Tx, doc *diagram.Document) {
	topology := analysis.Trace(doc)
	left := 1 + rng.IntN(6)
	for part := range doc.Parts() {
		if !part.Kind.IsBoard() || left == 0 || part.Kind == diagram.Panel && rng.IntN(2) == 0 {
			continue
		}
		left--
		node := topology.Node(part)
		p := analysis.TypicalProtector(node.System)
		p.ID, p.Plan, p.Bus = tx.NewProtectorID(), diagram.FirstPlan, part.ID
		p.Name = fmt.Sprintf("protector %d", left)
		p.Leads.Phase.Length = 0.1 + rng.Float64()
		p.Leads.Neutral.Length = p.Leads.Phase.Length
		p.Leads.Earth.Length = 0.1 + 1.5*rng.Float64()
		p.Leads.Run = []diagram.Run{diagram.Separate, diagram.Bundled, diagram.Twisted}[rng.IntN(3)]
		for mode := range p.Modes {
			p.Modes[mode].Connected = p.Modes[mode].Connected && rng.IntN(5) > 0
			if diagram.Mode(mode) == diagram.NeutralEarth && rng.IntN(3) == 0 {
				p.Modes[mode].Switching = true
			}
		}
		tx.SetProtector(p)
	}
}
