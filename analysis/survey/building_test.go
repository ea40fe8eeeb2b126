package survey

import (
	"strings"
	"testing"

	"clampline/assets"
	"clampline/diagram"
	"clampline/diagram/file"
	"clampline/diagram/unit"
)

// demo returns one of the demo sheets.
func demo(t testing.TB, i int) *diagram.Document {
	t.Helper()
	doc, err := file.Read(strings.NewReader(assets.Demos()[i].Text))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

var (
	wye480   = diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	wye208   = diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	delta480 = diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Unearthed, Frequency: 60}
	star400  = diagram.System{Wiring: diagram.Wye, Voltage: 400, Neutral: true, Earthing: diagram.TNS, Frequency: 50}
)

// laboratory returns part of the Tern Quay Marine Laboratory:
//
//	Service – Main switchboard – Chiller panel, Sea-water pumps
//	                           – T1 – Lab panel LP-1 – Instruments
//	                           – T2 – Server room, with SPD-2
//	                           – T3 – Winch house
//
// and a spare panel that nothing feeds.
func laboratory(t testing.TB) *diagram.Document {
	t.Helper()
	doc := diagram.New()
	board := diagram.BoardData{Spaces: 30, FreeSpaces: 4, Mounting: diagram.Flush}
	transformer := func(power, impedance float64) diagram.TransformerData {
		return diagram.TransformerData{Power: power, Primary: delta480, Impedance: impedance}
	}
	parts := []diagram.Part{
		{ID: "supply-1", Kind: diagram.Supply, Name: "Service", System: wye480},
		{ID: "switchboard-1", Kind: diagram.Switchboard, Name: "Main switchboard", Board: diagram.BoardData{Rating: 1200, MainBreaker: 1200, Spaces: 42, FreeSpaces: 6, Service: true, Bonded: true}},
		{ID: "panel-1", Kind: diagram.Panel, Name: "Chiller panel"},
		{ID: "panel-2", Kind: diagram.Panel, Name: "Sea-water pumps"},
		{ID: "transformer-1", Kind: diagram.Transformer, Name: "T1", System: wye208, Transformer: transformer(112.5e3, 4.5)},
		{ID: "panel-4", Kind: diagram.Panel, Name: "Lab panel LP-1"},
		{ID: "panel-6", Kind: diagram.Panel, Name: "Instruments"},
		{ID: "transformer-2", Kind: diagram.Transformer, Name: "T2", System: wye208, Transformer: transformer(30e3, 4)},
		{ID: "panel-5", Kind: diagram.Panel, Name: "Server room", Board: board},
		{ID: "transformer-3", Kind: diagram.Transformer, Name: "T3", System: delta480, Transformer: transformer(45e3, 4)},
		{ID: "panel-12", Kind: diagram.Panel, Name: "Winch house"},
		{ID: "panel-15", Kind: diagram.Panel, Name: "Spare panel"},
		{ID: "load-1", Kind: diagram.Load, Name: "Chiller"},
	}
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		tx.SetInfo(diagram.Info{Title: "Tern Quay Marine Laboratory", Site: "Tern Quay"})
		for _, p := range parts {
			tx.SetPart(p)
		}
		lead := func(from, to diagram.End) {
			tx.SetFeeder(diagram.Feeder{ID: tx.NewFeederID(), From: from, To: to, Length: 20})
		}
		main := diagram.End{Part: "switchboard-1"}
		lead(diagram.End{Part: "supply-1"}, main)
		lead(main, diagram.End{Part: "panel-1"})
		lead(main, diagram.End{Part: "panel-2"})
		lead(diagram.End{Part: "panel-1"}, diagram.End{Part: "load-1"})
		for _, pair := range [][2]diagram.ID{{"transformer-1", "panel-4"}, {"transformer-2", "panel-5"}, {"transformer-3", "panel-12"}} {
			lead(main, diagram.End{Part: pair[0], Port: diagram.Primary})
			lead(diagram.End{Part: pair[0], Port: diagram.Secondary}, diagram.End{Part: pair[1]})
		}
		lead(diagram.End{Part: "panel-4"}, diagram.End{Part: "panel-6"})
		tx.SetProtector(serverRoomProtector())
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func serverRoomProtector() diagram.Protector {
	lead := diagram.Lead{Length: 0.3048, Area: unit.AWGArea(10)}
	out := diagram.Protector{
		ID: "protector-2", Plan: diagram.FirstPlan, Bus: "panel-5", Name: "SPD-2", Type: diagram.Type2, Rating: diagram.VPR, System: wye208,
		In: 20e3, SCCR: 200e3, Breaker: diagram.BreakerData{Rated: 30, Poles: 3}, Leads: diagram.Leads{Phase: lead, Neutral: lead, Earth: lead},
	}
	for _, mode := range diagram.Modes() {
		out.Modes[mode] = diagram.ModeRating{Connected: true, Level: 700, MCOV: 150}
	}
	out.Modes[diagram.LineLine] = diagram.ModeRating{Connected: true, Level: 1200, MCOV: 300}
	return out
}

// clinic returns a main switchboard and an outbuilding with an electrode of its
// own, in the words of IEC.
func clinic(t testing.TB) *diagram.Document {
	t.Helper()
	doc := diagram.New()
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		tx.SetInfo(diagram.Info{Title: "Saltmarsh Clinic"})
		tx.SetPart(diagram.Part{ID: "supply-1", Kind: diagram.Supply, Name: "Supply", System: star400})
		own := star400
		own.Earthing = diagram.TT
		tx.SetPart(diagram.Part{ID: "panel-3", Kind: diagram.Panel, Name: "Outbuilding", Note: "Earthed by its own electrode.", System: own, Board: diagram.BoardData{Structure: true}})
		tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "supply-1"}, To: diagram.End{Part: "panel-3"}, Length: 60})
		lead := diagram.Lead{Length: 0.4}
		tx.SetProtector(diagram.Protector{ID: "protector-2", Plan: diagram.FirstPlan, Bus: "panel-3", Name: "SPD-2", Type: diagram.ClassII, Rating: diagram.Up, Leads: diagram.Leads{Phase: lead, Neutral: lead, Earth: lead}})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return doc
}
