package scene

import (
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw"
	"clampline/diagram/geom"
)

// ternQuay returns the invented marine laboratory and the marks of an
// invented analysis: every kind of part, every verdict and both turns of a bar.
func ternQuay(t testing.TB) (*diagram.Document, Marks) {
	t.Helper()
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		q := quay{tx}
		q.parts()
		q.feeders()
		q.protectors()
	})
	return doc, quayMarks()
}

type quay struct{ tx *diagram.Tx }

var (
	wye480 = diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	wye208 = diagram.System{Wiring: diagram.Wye, Voltage: 208, Neutral: true, Earthing: diagram.Solid, Frequency: 60}
	delta  = diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Solid, Frequency: 60}
)

func (q quay) part(id diagram.ID, kind diagram.Kind, name string, x, y, span float64) {
	q.tx.SetPart(diagram.Part{ID: id, Kind: kind, Name: name, At: geom.Pt(x, y), Span: span})
}

func (q quay) parts() {
	q.tx.SetPart(diagram.Part{
		ID: "service", Kind: diagram.Supply, Name: "Service", At: geom.Pt(0, 0), System: wye480,
		Source: diagram.SourceData{FaultCurrent: 22e3},
	})
	q.tx.SetPart(diagram.Part{
		ID: "generator", Kind: diagram.Generator, Name: "Standby set", At: geom.Pt(120, 0), System: wye480,
		Source: diagram.SourceData{Power: 150e3},
	})
	for _, t := range []struct {
		id     diagram.ID
		x, y   float64
		volts  float64
		screen bool
	}{{"T1", 40, 60, 112.5e3, false}, {"T2", 150, 130, 30e3, true}} {
		q.tx.SetPart(diagram.Part{
			ID: t.id, Kind: diagram.Transformer, Name: string(t.id), At: geom.Pt(t.x, t.y), System: wye208,
			Transformer: diagram.TransformerData{Power: t.volts, Primary: delta, Screen: t.screen},
		})
	}
	q.part("main", diagram.Switchboard, "Main switchboard", 10, 25, 150)
	q.part("transfer", diagram.TransferSwitch, "Transfer switch", 115, 60, 0)
	q.part("chiller", diagram.Panel, "Chiller panel", -60, 75, 50)
	q.part("pumps", diagram.Panel, "Sea-water pumps", 0, 75, 0)
	q.part("emergency", diagram.Panel, "Emergency panel", 115, 95, 60)
	q.part("dock", diagram.Panel, "Dock pedestal", 200, 60, 0)
	q.part("lab", diagram.Panel, "Lab panel LP-1", 40, 95, 80)
	q.part("instruments", diagram.Panel, "Instruments", 15, 135, 50)
	q.part("server", diagram.Panel, "Server room", 150, 165, 60)
	q.part("joint", diagram.Junction, "", 90, 120, 0)
	for i, name := range []string{"Chiller 1", "Chiller 2", "Tower fan", "Controls"} {
		q.part(diagram.ID("load-"+string(rune('a'+i))), diagram.Load, name, -80+float64(i)*13, 110, 0)
	}
	q.part("rack", diagram.Load, "Rack A", 140, 195, 0)
	q.part("ups", diagram.Load, "UPS", 175, 195, 0)
	q.part("freezer", diagram.Load, "Sample freezer", 75, 150, 0)
	q.part("bench", diagram.Load, "Wet bench", 105, 150, 0)
	q.tx.SetPart(diagram.Part{
		ID: "note-1", Kind: diagram.Note, Name: "Survey", At: geom.Pt(-60, 10), Span: 45,
		Note: "Free spaces counted at every panel; neutral is bonded in the main switchboard only.",
	})
}

func (q quay) feeder(from diagram.ID, port diagram.Port, to diagram.ID, toPort diagram.Port, length, area float64, data diagram.SwitchData) {
	q.tx.SetFeeder(diagram.Feeder{
		ID:   diagram.ID("f-" + string(from) + "-" + string(to)),
		From: diagram.End{Part: from, Port: port}, To: diagram.End{Part: to, Port: toPort},
		Length: length, Area: area, Switch: data,
	})
}

func (q quay) feeders() {
	const awg2 = 3.36e-5
	none := diagram.SwitchData{}
	breaker := diagram.SwitchData{Kind: diagram.Breaker}
	q.feeder("service", "", "main", "", 0, 0, none)
	q.feeder("main", "", "chiller", "", 24, 0, breaker)
	q.feeder("main", "", "pumps", "", 18, awg2, diagram.SwitchData{Kind: diagram.Fuse})
	q.feeder("main", "", "T1", diagram.Primary, 12, 0, diagram.SwitchData{Kind: diagram.Disconnect})
	q.feeder("main", "", "transfer", diagram.Normal, 20, awg2, breaker)
	q.feeder("main", "", "dock", "", 90, awg2, breaker)
	q.feeder("generator", "", "transfer", diagram.Emergency, 15, awg2, diagram.SwitchData{Kind: diagram.Breaker, Open: true})
	q.feeder("transfer", diagram.Common, "emergency", "", 3, 0, none)
	q.feeder("T1", diagram.Secondary, "lab", "", 3, 0, none)
	q.feeder("lab", "", "instruments", "", 15, 0, breaker)
	q.feeder("lab", "", "joint", "", 10, 0, breaker)
	q.feeder("joint", "", "freezer", "", 6, 0, none)
	q.feeder("joint", "", "bench", "", 8, 0, none)
	q.feeder("emergency", "", "T2", diagram.Primary, 9, 0, breaker)
	q.feeder("T2", diagram.Secondary, "server", "", 4, 0, breaker)
	q.feeder("server", "", "rack", "", 5, 0, breaker)
	q.feeder("server", "", "ups", "", 7, 0, diagram.SwitchData{Kind: diagram.Disconnect, Open: true})
	for _, id := range []diagram.ID{"load-a", "load-b", "load-c", "load-d"} {
		q.feeder("chiller", "", id, "", 4, 0, breaker)
	}
}

func (q quay) protectors() {
	for _, p := range []diagram.Protector{
		{ID: "p-main", Bus: "main", Offset: -5},
		{ID: "p-server", Bus: "server", Offset: 20},
		{ID: "p-ups", Bus: "ups"},
	} {
		p.Plan = diagram.FirstPlan
		q.tx.SetProtector(p)
	}
}

func quayMarks() Marks {
	held := func(line string) Mark {
		return Mark{Role: draw.RoleHeld, Dash: draw.Solid, Letter: "H", Lines: []string{line}, System: "480Y/277"}
	}
	unreached := Mark{Role: draw.RoleUnreached, Dash: draw.Hatched, Letter: "U", Lines: []string{"no protector reaches it"}, System: "208Y/120"}
	whole := func(role draw.Role, dash draw.Dash) FeederMark {
		return FeederMark{[]Piece{{0, 1, role, dash}}}
	}
	green, pink := whole(draw.RoleHeld, draw.Solid), whole(draw.RoleUnreached, draw.Hatched)
	return Marks{
		Parts: map[diagram.ID]Mark{
			"main": held("1 240 V L-G · 31 %"), "chiller": held("1 610 V L-G · 40 %"), "pumps": held("1 480 V L-G · 37 %"),
			"emergency": held("1 390 V L-G · 35 %"), "lab": unreached, "instruments": unreached,
			"dock":   {Role: draw.RoleExceeded, Dash: draw.Double, Letter: "X", Lines: []string{"2 760 V L-G · 110 %"}, System: "480Y/277"},
			"server": {Role: draw.RoleTight, Dash: draw.LongDash, Letter: "T", Lines: []string{"720 V L-N · 90 %"}, System: "208Y/120"},
			"load-a": held("1 650 V L-G · 41 %"), "load-b": held("1 670 V L-G · 42 %"), "load-c": held("1 660 V L-G · 42 %"),
			"load-d":  {Role: draw.RoleTight, Dash: draw.LongDash, Letter: "T", Lines: []string{"1 640 V L-N · 96 %"}, System: ""},
			"rack":    {Role: draw.RoleTight, Dash: draw.LongDash, Letter: "T", Lines: []string{"740 V L-N · 93 %"}, System: ""},
			"ups":     {Role: draw.RoleUnknown, Dash: draw.Dotted, Letter: "?", Lines: []string{"switched off"}, System: ""},
			"freezer": unreached, "bench": unreached,
		},
		Feeders: map[diagram.ID]FeederMark{
			"f-service-main": green, "f-main-chiller": green, "f-main-pumps": green, "f-main-T1": green,
			"f-main-transfer": green, "f-transfer-emergency": green, "f-emergency-T2": green,
			"f-chiller-load-a": green, "f-chiller-load-b": green, "f-chiller-load-c": green, "f-chiller-load-d": green,
			"f-main-dock": {[]Piece{
				{0, 0.55, draw.RoleHeld, draw.Solid}, {0.55, 0.8, draw.RoleTight, draw.LongDash}, {0.8, 1, draw.RoleExceeded, draw.Double},
			}},
			"f-generator-transfer": whole(draw.RoleUnknown, draw.Dotted),
			"f-T1-lab":             pink, "f-lab-instruments": pink, "f-lab-joint": pink, "f-joint-freezer": pink, "f-joint-bench": pink,
			"f-T2-server": whole(draw.RoleTight, draw.LongDash), "f-server-rack": whole(draw.RoleTight, draw.LongDash),
			"f-server-ups": whole(draw.RoleUnknown, draw.Dotted),
		},
		Breaks: map[diagram.ID]string{"T1": "protection stops here", "T2": "protection stops here"},
		Protectors: map[diagram.ID][]string{
			"p-main": {"VPR 1 200 V", "lead 18 in"}, "p-server": {"VPR 700 V", "lead 26 in"}, "p-ups": {"VPR 600 V", "lead 6 in"},
		},
		Badges: map[diagram.ID]Badge{
			"dock": {2, true}, "lab": {1, false}, "p-server": {12, true}, "f-main-dock": {1, true}, "f-lab-joint": {3, false}, "gone": {4, true}, "rack": {0, true},
		},
		Legend: []LegendEntry{
			{Role: draw.RoleHeld, Dash: draw.Solid, Letter: "H", Text: "Held"},
			{Role: draw.RoleTight, Dash: draw.LongDash, Letter: "T", Text: "Tight"},
			{Role: draw.RoleExceeded, Dash: draw.Double, Letter: "X", Text: "Exceeded"},
			{Role: draw.RoleUnreached, Dash: draw.Hatched, Letter: "U", Text: "Unreached"},
			{Role: draw.RoleUnknown, Dash: draw.Dotted, Letter: "?", Text: "Unknown"},
			{Text: "Errors here", Badge: Badge{1, true}}, {Text: "Warnings here", Badge: Badge{1, false}}, {Text: "Protection stops here", Break: true},
		},
	}
}
