package analysis_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// served returns a panel on a supply of that exposure, and a load on a wire.
func served(t *testing.T, exposure diagram.Exposure, system diagram.System, edit func(*diagram.Tx)) *diagram.Document {
	t.Helper()
	return diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply-1", Kind: diagram.Supply, System: system, Exposure: exposure})
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
		tx.SetPart(diagram.Part{ID: "load-1", Kind: diagram.Load})
		tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "supply-1"}, To: diagram.End{Part: "panel-1"}, Length: 10, Area: 50e-6})
		tx.SetFeeder(diagram.Feeder{ID: "feeder-2", From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: "load-1"}, Length: 15, Area: 3.31e-6})
		if edit != nil {
			edit(tx)
		}
	})
}

var solid = diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid}

// What comes over the supply is, by exposure, category C of the chosen edition of IEEE
// C62.41 (1991: 6 kV 3 kA, 10 kV 5 kA, 20 kV 10 kA; 2002: 6 kV 3 kA or 10 kV 10 kA; from
// memory), and by IEC 6 kV behind 2 ohm, or 5 kA where a flash near the line drives that.
func TestSurgesOverTheSupply(t *testing.T) {
	edition := func(e diagram.SurgeEdition) func(*diagram.Tx) {
		return func(tx *diagram.Tx) {
			info := tx.Document().Info()
			info.Codes.Surges = e
			tx.SetInfo(info)
		}
	}
	for _, row := range []struct {
		name        string
		exposure    diagram.Exposure
		system      diagram.System
		edit        func(*diagram.Tx)
		volts, amps float64
		ring        float64
		says        string
	}{
		{"nothing stated", diagram.Exposure{}, solid, nil, 6e3, 3e3, 500, "IEEE C62.41.2-2002 table 4 (from memory); low exposure, since the supply's details state none"},
		{"low", diagram.Exposure{Surges: diagram.LowExposure}, solid, nil, 6e3, 3e3, 500, "low exposure, as the supply's details state"},
		{"medium", diagram.Exposure{Surges: diagram.MediumExposure}, solid, nil, 6e3, 3e3, 500, "medium counts as low"},
		{"high", diagram.Exposure{Surges: diagram.HighExposure}, solid, nil, 10e3, 10e3, 500, "high exposure"},
		{"cable", diagram.Exposure{LowCable: 100}, solid, edition(diagram.Surges1991), 6e3, 3e3, 170, "cables in the ground"},
		{"overhead", diagram.Exposure{HighOverhead: 100, LowCable: 10}, solid, edition(diagram.Surges1991), 10e3, 5e3, 330, "IEEE C62.41-1991 (from memory); medium exposure, since an overhead line leads to the supply"},
		{"high 1991", diagram.Exposure{Surges: diagram.HighExposure}, solid, edition(diagram.Surges1991), 20e3, 10e3, 500, "IEEE C62.41-1991"},
		{"IEC", diagram.Exposure{Surges: diagram.MediumExposure}, wye, edition(diagram.Surges1991), 6e3, 3e3, 500, "IEC 60364-4-44 table 443.2"},
		{"IEC high", diagram.Exposure{Surges: diagram.HighExposure}, wye, nil, 10e3, 5e3, 500, "IEC 62305-1:2010 table E.2"},
	} {
		got := analysis.SurgesOf(served(t, row.exposure, row.system, row.edit))
		all, between, ring := got[0], got[1], got[2]
		if all.Voltage != row.volts || all.Current != row.amps || all.Wave != diagram.CombinationWave || all.Path != diagram.LinesToEarth ||
			between.Voltage != row.volts || between.Path != diagram.LineToNeutral || ring.Current != row.ring || ring.Wave != diagram.RingWave || all.Places != "" {
			t.Errorf("%s: got %+v", row.name, got[:3])
		}
		if !strings.Contains(all.Note, row.says) {
			t.Errorf("%s: notes %q, want %q", row.name, all.Note, row.says)
		}
	}
}

func names(surges []diagram.Surge) []string {
	var out []string
	for _, s := range surges {
		out = append(out, s.Name)
	}
	return out
}

// Each further supply that feeds something has the first case; a flash to the building
// counts where it has a lightning protection system; the sheet's own cases replace all.
func TestWhichCasesAreUsual(t *testing.T) {
	doc := served(t, diagram.Exposure{}, solid, func(tx *diagram.Tx) {
		for _, id := range []diagram.ID{"supply-2", "supply-3", "supply-5"} {
			tx.SetPart(diagram.Part{ID: id, Kind: diagram.Supply, System: solid, Exposure: diagram.Exposure{Surges: diagram.HighExposure}})
			tx.SetFeeder(diagram.Feeder{ID: "f-" + id, From: diagram.End{Part: id}, To: diagram.End{Part: "panel-1"}, Switch: diagram.SwitchData{Open: id == "supply-3"}})
		}
		tx.SetPart(diagram.Part{ID: "supply-5", Kind: diagram.Supply}) // of a system that is not known
		tx.SetPart(diagram.Part{ID: "supply-4", Kind: diagram.Supply, System: solid})
	})
	got := analysis.SurgesOf(doc)
	want := []string{"Supply, all lines", "Supply, line to neutral", "Supply, ring wave", "supply-2, all lines", "Inside, B, ring", "Inside, B, combination", "Inside, A, ring"}
	if !slices.Equal(names(got), want) {
		t.Errorf("got %q\nwant %q", names(got), want)
	}
	if got[3].Part != "supply-2" || got[3].Current != 10e3 || got[0].Current != 3e3 {
		t.Errorf("each supply has its own exposure: got %+v and %+v", got[0], got[3])
	}
	flash := analysis.SurgesOf(served(t, diagram.Exposure{Lightning: diagram.LightningI}, wye, nil))[3]
	if flash.Name != "Flash to the building" || flash.Current != 75e3 || flash.Wave != diagram.ImpulseWave || !strings.Contains(flash.Note, "its 4 conductors share that alike") {
		t.Errorf("got %+v", flash)
	}
	own := diagram.Surge{ID: "surge-1", Path: diagram.LineToEarth, Wave: diagram.RingWave, Voltage: 1, Current: 1}
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetSurge(own) })
	if got := analysis.SurgesOf(doc); len(got) != 1 || got[0] != own {
		t.Errorf("with one of its own: got %+v", got)
	}
}

// The steps inside are those of IEEE C62.41-1991, A and B at exposures 1 to 3, and of
// levels 2 to 4 of IEC 61000-4-5:2014 (both from memory), whose impedance is 12 ohm to earth
// and 2 ohm between lines.
func TestSurgesInside(t *testing.T) {
	switching := func(to diagram.Switching, motor bool) func(*diagram.Tx) {
		return func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "load-2", Kind: diagram.Load, Load: diagram.LoadData{Switching: to, Motor: motor}})
			tx.SetPart(diagram.Part{ID: "load-3", Kind: diagram.Load, Load: diagram.LoadData{Switching: to, Motor: motor}})
			tx.SetFeeder(diagram.Feeder{ID: "feeder-3", From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: "load-2"}, Length: 15, Area: 3.31e-6})
			tx.SetFeeder(diagram.Feeder{ID: "feeder-4", From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: "load-3"}, Length: 5, Area: 3.31e-6})
		}
	}
	ordinary := "Inside, B, ring 2000 170; Inside, B, combination 2000 1000; Inside, A, ring 2000 70"
	contactors := "; Contactors, B, ring 4000 330; Contactors, B, combination 4000 2000; Contactors, A, ring 4000 130"
	for _, row := range []struct {
		name   string
		system diagram.System
		edit   func(*diagram.Tx)
		want   string
	}{
		{"ordinary", solid, switching("", false), ordinary},
		{"contactors", solid, switching(diagram.ContactorSwitching, false), ordinary + contactors},
		{"a motor", solid, switching("", true), ordinary + contactors},
		{"a motor on something soft", solid, switching(diagram.OrdinarySwitching, true), ordinary},
		{"capacitors", solid, switching(diagram.CapacitorSwitching, true), ordinary +
			"; Capacitor banks, B, ring 6000 500; Capacitor banks, B, combination 6000 3000; Capacitor banks, A, ring 6000 200"},
		{"IEC", wye, switching(diagram.ContactorSwitching, false), "Inside, line to ground 1000 83; Inside, line to neutral 500 250; Contactors, line to ground 2000 167; Contactors, line to neutral 1000 500"},
	} {
		var got []string
		for _, s := range analysis.SurgesOf(served(t, diagram.Exposure{}, row.system, row.edit))[3:] {
			got = append(got, s.Name+" "+whole(s.Voltage)+" "+whole(s.Current))
			if s.Places != diagram.EveryBus || !strings.Contains(s.Note, "from memory") || s.Wave == diagram.LaboratoryWave {
				t.Errorf("%s: %+v", row.name, s)
			}
		}
		if strings.Join(got, "; ") != row.want {
			t.Errorf("%s: got %s\nwant %s", row.name, strings.Join(got, "; "), row.want)
		}
	}
}

// Category A begins 10 m (30 ft) from the board on wires of 14 to 10 AWG (IEEE
// C62.41-1991, from memory).
func TestCategoryByDistance(t *testing.T) {
	for _, row := range []struct {
		name string
		edit func(*diagram.Tx)
		want diagram.Category
	}{
		{"15 m of 12 AWG", nil, diagram.CategoryA},
		{"10 m", wire(10, 3.31e-6), diagram.CategoryB},
		{"10 AWG", wire(10.1, 5.26e-6), diagram.CategoryA},
		{"6 mm²", wire(50, 6e-6), diagram.CategoryB},
		{"not known", wire(50, 0), diagram.CategoryB},
		{"through a junction", func(tx *diagram.Tx) {
			tx.SetPart(diagram.Part{ID: "junction-1", Kind: diagram.Junction})
			f, _ := tx.Feeder("feeder-2")
			f.From.Part, f.Length = "junction-1", 6
			tx.SetFeeder(f)
			f.ID, f.From.Part, f.To.Part = "feeder-3", "panel-1", "junction-1"
			tx.SetFeeder(f)
		}, diagram.CategoryA},
	} {
		doc := served(t, diagram.Exposure{}, solid, row.edit)
		topology := analysis.Trace(doc)
		load, _ := doc.Part("load-1")
		board, _ := doc.Part("panel-1")
		if got := analysis.CategoryOf(doc, topology, load); got != row.want || analysis.CategoryOf(doc, topology, board) != diagram.CategoryB {
			t.Errorf("%s: got %s", row.name, got)
		}
		arrives := 0 // each place has each wave of its category once
		for _, s := range analysis.SurgesOf(doc)[3:] {
			for _, at := range analysis.Origins(doc, topology, s) {
				if at.Part == "load-1" && at.Places == "" && at.Category == "" && at.Switching == "" {
					arrives++
				}
			}
		}
		if want := map[diagram.Category]int{diagram.CategoryA: 1, diagram.CategoryB: 2}[row.want]; arrives != want {
			t.Errorf("%s: %d surges arrive at the load, want %d", row.name, arrives, want)
		}
	}
}

// wire lays another wire to the load.
func wire(length, area float64) func(*diagram.Tx) {
	return func(tx *diagram.Tx) {
		f, _ := tx.Feeder("feeder-2")
		f.Length, f.Area = length, area
		tx.SetFeeder(f)
	}
}

func whole(v float64) string { return strconv.FormatFloat(math.Round(v), 'f', -1, 64) }
