package diagramtest

import (
	"fmt"

	"clampline/diagram"
	"clampline/diagram/geom"
)

// Building returns a plain radial building of exactly n parts (at least 2): a
// supply, a main switchboard, then panels in rows, each with loads; every
// eighth panel hangs on a transformer, every fourth panel has a protector.
func Building(n int) *diagram.Document {
	doc := diagram.New()
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		b := builder{tx: tx, left: n}
		b.build()
		return nil
	})
	if err != nil {
		panic(fmt.Sprintf("diagramtest: the plain building was refused: %v", err))
	}
	return doc
}

type builder struct {
	tx     *diagram.Tx
	left   int
	parts  int
	feeder int
	panels int
}

const (
	panelsInRow   = 40
	loadsOfPanel  = 6
	columnPitchMM = 90
	rowPitchMM    = 110
)

func (b *builder) add(kind diagram.Kind, at geom.Point, set func(*diagram.Part)) diagram.ID {
	b.left--
	b.parts++
	p := diagram.Part{ID: diagram.ID(fmt.Sprintf("part-%d", b.parts)), Kind: kind, At: at}
	p.Name = fmt.Sprintf("%s %d", kind, b.parts)
	set(&p)
	b.tx.SetPart(p)
	return p.ID
}

func (b *builder) join(from diagram.ID, port diagram.Port, to diagram.ID, toPort diagram.Port, length float64) {
	b.feeder++
	b.tx.SetFeeder(diagram.Feeder{
		ID:   diagram.ID(fmt.Sprintf("feeder-%d", b.feeder)),
		From: diagram.End{Part: from, Port: port}, To: diagram.End{Part: to, Port: toPort},
		Length: length, Area: 3.36e-5, Raceway: diagram.SteelConduit, Switch: diagram.SwitchData{Kind: diagram.Breaker},
	})
}

func (b *builder) build() {
	wye := diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	supply := b.add(diagram.Supply, geom.Pt(0, -60), func(p *diagram.Part) { p.System = wye })
	main := b.add(diagram.Switchboard, geom.Pt(0, 0), func(p *diagram.Part) {
		p.Span = 200
		p.Board = diagram.BoardData{Service: true, Bonded: true}
		p.Withstand = diagram.Withstand{Kind: diagram.ByCategory, Category: 4}
	})
	b.join(supply, "", main, "", 6)
	b.protect(main, wye)
	for b.left > 0 {
		b.panel(main, wye)
	}
}

func (b *builder) panel(main diagram.ID, wye diagram.System) {
	at := geom.Pt(float64(b.panels%panelsInRow)*columnPitchMM, float64(1+b.panels/panelsInRow)*rowPitchMM)
	from, port, system := main, diagram.Port(""), wye
	if b.panels%8 == 7 && b.left > 1 {
		system.Voltage = 208
		from = b.add(diagram.Transformer, at.Add(geom.Pt(0, -45)), func(p *diagram.Part) {
			p.System = system
			p.Transformer = diagram.TransformerData{Power: 75e3, Primary: wye, Impedance: 4.5}
		})
		port = diagram.Secondary
		b.join(main, "", from, diagram.Primary, 12)
	}
	panel := b.add(diagram.Panel, at, func(p *diagram.Part) {
		p.Withstand = diagram.Withstand{Kind: diagram.ByCategory, Category: 3}
	})
	b.join(from, port, panel, "", float64(3+b.panels%30))
	if b.panels%4 == 0 {
		b.protect(panel, system)
	}
	b.panels++
	for i := 0; i < loadsOfPanel && b.left > 0; i++ {
		load := b.add(diagram.Load, at.Add(geom.Pt(float64(i-loadsOfPanel/2)*13, 35)), func(p *diagram.Part) {
			p.Withstand = diagram.Withstand{Kind: diagram.ByCategory, Category: 2}
		})
		b.join(panel, "", load, "", float64(2+3*i))
	}
}

func (b *builder) protect(bus diagram.ID, system diagram.System) {
	const inch = 0.0254
	p := diagram.Protector{
		ID: b.tx.NewProtectorID(), Plan: diagram.FirstPlan, Bus: bus, Type: diagram.Type2, Rating: diagram.VPR, System: system,
		In: 20e3, SCCR: 200e3,
	}
	for i, level := range []float64{1200, 1200, 1200, 2000} {
		p.Modes[i] = diagram.ModeRating{Connected: true, Level: level, MCOV: []float64{320, 320, 320, 640}[i]}
	}
	lead := diagram.Lead{Length: 12 * inch, Area: 5.26e-6}
	p.Leads = diagram.Leads{Phase: lead, Neutral: lead, Earth: lead}
	b.tx.SetProtector(p)
}
