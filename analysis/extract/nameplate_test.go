package extract_test

import (
	"testing"

	"clampline/analysis"
	"clampline/analysis/extract"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// Of a nameplate those modes count that are connected, state a level of a volt or
// more, and that the system has which the protector is made for.
func TestNameplate(t *testing.T) {
	on := func(level float64) diagram.ModeRating {
		return diagram.ModeRating{Connected: true, Level: level, MCOV: 150}
	}
	const ln, lg, ng, ll = diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth, diagram.LineLine
	idle := on(700)
	idle.Connected = false
	single := diagram.System{Wiring: diagram.Single, Voltage: 120, Neutral: true, Earthing: diagram.Solid}
	for _, row := range []struct {
		name   string
		made   diagram.System
		modes  map[diagram.Mode]diagram.ModeRating
		known  bool
		counts []diagram.Mode
	}{
		{"all", wye208, map[diagram.Mode]diagram.ModeRating{ln: on(700), lg: on(700), ng: on(700), ll: on(1200)}, true, []diagram.Mode{ln, lg, ng, ll}},
		{"one that is not connected", wye208, map[diagram.Mode]diagram.ModeRating{ln: on(700), lg: idle}, true, []diagram.Mode{ln}},
		{"one without a level", wye208, map[diagram.Mode]diagram.ModeRating{ln: on(700), lg: on(0.9)}, true, []diagram.Mode{ln}},
		{"one of a volt", wye208, map[diagram.Mode]diagram.ModeRating{ln: on(1)}, true, []diagram.Mode{ln}},
		{"to a neutral that is not there", delta480, map[diagram.Mode]diagram.ModeRating{ln: on(700), ng: on(700), lg: on(2000)}, true, []diagram.Mode{lg}},
		{"between lines where there is one", single, map[diagram.Mode]diagram.ModeRating{ll: on(700), ln: on(700)}, true, []diagram.Mode{ln}},
		{"nothing", wye208, map[diagram.Mode]diagram.ModeRating{ln: idle}, false, nil},
		{"nothing that the system has", delta480, map[diagram.Mode]diagram.ModeRating{ln: on(700)}, false, nil},
	} {
		p := diagram.Protector{System: row.made}
		for mode, r := range row.modes {
			p.Modes[mode] = r
		}
		plate, known := extract.Nameplate(p, row.made)
		if known != row.known {
			t.Errorf("%s: known %v", row.name, known)
		}
		counted := map[diagram.Mode]bool{}
		for _, mode := range row.counts {
			counted[mode] = true
		}
		for _, mode := range diagram.Modes() {
			if plate.Modes[mode].Connected != counted[mode] {
				t.Errorf("%s: %s counts: %v", row.name, mode, !counted[mode])
			}
		}
		if plate.Lines != row.made.Lines() || plate.Neutral != row.made.Neutral {
			t.Errorf("%s: got %+v", row.name, plate)
		}
	}
	up := diagram.Protector{System: wye208, Rating: diagram.Up, In: 5e6}
	up.Modes[ln] = on(1500)
	if plate, _ := extract.Nameplate(up, wye208); plate.In != 1e6 {
		t.Errorf("an In of 5 MA counts as %g A", plate.In)
	}
	up.Rating = diagram.VPR
	if plate, _ := extract.Nameplate(up, wye208); plate.In != 0 {
		t.Errorf("an In beside a VPR counts as %g A: its test has a wave of its own", plate.In)
	}
}

// Like nameplates are calibrated once; a protector that states nothing is left out,
// and that is told.
func TestNameplatesOfAPlan(t *testing.T) {
	doc := sheet(t, []diagram.Part{supply(wye208), panel("main"), panel("sub")}, feed("supply", "main", 10), feed("main", "sub", 10))
	plate := diagram.ModeRating{Connected: true, Level: 700, MCOV: 150}
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		for id, level := range map[diagram.ID]float64{"p-1": 700, "p-2": 700, "p-3": 0, "p-4": 0, "p-5": 800} {
			p := diagram.Protector{ID: id, Plan: diagram.FirstPlan, Bus: "main"}
			plate.Level = level
			p.Modes[diagram.LineNeutral] = plate
			tx.SetProtector(p)
		}
	})
	if got := extract.Nameplates(input(doc, usual)); len(got) != 2 {
		t.Errorf("got %d nameplates, want those of 700 and 800 V", len(got))
	}
	c := network(t, doc, usual)
	if !told(c, "p-3", "states no voltage") || !told(c, "p-4", "states no voltage") || len(c.Protectors) != 0 { // none is calibrated here
		t.Errorf("got %d protectors, told %v", len(c.Protectors), c.Assumptions)
	}
}

// A protector that the surge destroys is left out, and that is told: what is computed is
// the building without it.
func TestDestroyedProtectorIsLeftOutAndTold(t *testing.T) {
	doc := sheet(t, []diagram.Part{supply(wye480), panel("main")}, feed("supply", "main", 10))
	p := analysis.TypicalProtector(wye480)
	p.ID, p.Plan, p.Bus = "spd", diagram.FirstPlan, "main"
	if _, err := doc.Edit(func(tx *diagram.Tx) error { tx.SetProtector(p); return nil }); err != nil {
		t.Fatal(err)
	}
	in := input(doc, usual)
	in.Failed = map[diagram.ID]bool{"spd": true}
	c := networkOf(t, in)
	if len(c.Protectors) > 0 || !told(c, "spd", "is left out: the surge destroys it") {
		t.Errorf("got %d protectors, told %v", len(c.Protectors), c.Assumptions)
	}
}
