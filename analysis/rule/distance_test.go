package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// wardOf is a board with a protector of that Up, leads of none, and a load of
// category II, which stands 2500 V at 230 V, at a distance.
func wardOf(t *testing.T, up, metres float64, alter ...func(*diagram.Protector)) *sketch {
	s := newSketch(t).supply(tnsOf400, diagram.Exposure{}).panels("main").
		part(diagram.Part{ID: "lamp", Kind: diagram.Load, Withstand: diagram.Withstand{Kind: diagram.ByCategory, Category: 2}}).
		feed(5, "supply > main").feed(metres, "main > lamp")
	return s.hold("main", up, alter...)
}

// hold places a protector of that Up.
func (s *sketch) hold(host diagram.ID, up float64, alter ...func(*diagram.Protector)) *sketch {
	s.t.Helper()
	return s.edit(func(tx *diagram.Tx) {
		p := plain(tx.NewProtectorID(), host, append([]func(*diagram.Protector){of(diagram.ClassII), clamps(up)}, alter...)...)
		p.Rating, p.Name = diagram.Up, "SPD on "+string(host)
		tx.SetProtector(p)
	})
}

// The 10 m and the half are those of IEC 60364-5-53 clause 534.4.9.
func TestProtectedDistance(t *testing.T) {
	leads := func(p *diagram.Protector) { p.Leads.Phase.Length, p.Leads.Earth.Length = 0.25, 0.25 }
	vpr := func(s *sketch) *sketch {
		return s.edit(func(tx *diagram.Tx) {
			for p := range s.doc.ProtectorsOf(diagram.FirstPlan) {
				p.Rating = diagram.VPR
				tx.SetProtector(p)
			}
		})
	}
	withstand := func(w diagram.Withstand) func(*diagram.Part) { return func(p *diagram.Part) { p.Withstand = w } }
	critical := func(p *diagram.Part) { p.Load.Critical = true }
	const code = ": IEC 60364-5-53:2001 with amendment 2:2015, clause 534.4.9, as OVE-Fachinformation E09"
	far := []string{"note main+lamp" + code}
	tests := []struct {
		name  string
		sheet *sketch
		want  []string
	}{
		{"11\u00a0m, more than half", wardOf(t, 1500, 11), far},
		{"10\u00a0m", wardOf(t, 1500, 10), []string{}},
		{"11\u00a0m, half", wardOf(t, 1250, 11), []string{}},
		{"11\u00a0m, half, and 0.5\u00a0m of lead", wardOf(t, 1250, 11, leads), far},
		{"11\u00a0m, half with the leads", wardOf(t, 750, 11, leads), []string{}},
		{"critical", wardOf(t, 1500, 11).alter("lamp", critical), []string{"warning main+lamp" + code}},
		{"stands 4 kV", wardOf(t, 1500, 11).alter("lamp", withstand(diagram.Withstand{Kind: diagram.ByVolts, Volts: 4000})), []string{}},
		{"not known what it stands", wardOf(t, 1500, 11).alter("lamp", withstand(diagram.Withstand{})), []string{}},
		{"a multiple is no rated impulse voltage", wardOf(t, 1500, 11).alter("lamp", withstand(diagram.Withstand{Kind: diagram.ByMultiple, Multiple: 5})), []string{}},
		{"another protector at the load", wardOf(t, 1500, 11).hold("lamp", 1500), []string{}},
		{"a lower one beside it", wardOf(t, 1500, 11).hold("main", 1000), []string{}},
		{"the length is not known", wardOf(t, 1500, 0), []string{}},
		{"its level is not stated", wardOf(t, 0, 11), []string{}},
		{"a VPR", vpr(wardOf(t, 1500, 11)), []string{}},
		{"by NFPA 70", wardOf(t, 1500, 11).codes(diagram.Codes{Practice: diagram.NECPractice}), []string{}},
		{"two of them", wardOf(t, 1500, 11).part(diagram.Part{ID: "monitor", Kind: diagram.Load, Withstand: diagram.Withstand{Kind: diagram.ByCategory, Category: 1}}).feed(20, "main > monitor"),
			[]string{"note main+monitor+lamp" + code}},
		{"behind a transformer, which parts the two", newSketch(t).supply(tnsOf400, diagram.Exposure{}).panels("main").part(diagram.Part{ID: "T1", Kind: diagram.Transformer, System: tnsOf400}).
			part(diagram.Part{ID: "lamp", Kind: diagram.Load, Withstand: diagram.Withstand{Kind: diagram.ByCategory, Category: 2}}).
			feed(5, "supply > main").feed(11, "main > T1:primary", "T1:secondary > lamp").hold("main", 1500), []string{}},
	}
	for _, test := range tests {
		if diff := cmp.Diff(test.want, brief(test.sheet.about(analysis.SubjectPlace))); diff != "" {
			t.Errorf("%s (want -, got +):\n%s", test.name, diff)
		}
	}
	f := wardOf(t, 1250, 11, leads).about(analysis.SubjectPlace)[0]
	checkTexts(t, f, "More than 10\u00a0m of wiring lies between SPD on main on main, which with leads limits to 1\u00a0750\u00a0V, and lamp",
		"beyond 10\u00a0m of wiring the voltage can swing to twice that of the protector, so that should be at most half of what the equipment withstands",
		"place another protector close to the equipment, or use one here whose Up with its leads is at most 1\u00a0250\u00a0V",
		"IEC 60364-5-53:2001 with amendment 2:2015, clause 534.4.9, as OVE-Fachinformation E09 (2022) gives it (check your edition)")
	want := map[string]float64{"wiring to lamp": 11, "most wiring": 10, "rated impulse voltage of lamp": 2500, "half of it": 1250, "Up with its leads": 1250 + 0.5*1000}
	if diff := cmp.Diff(want, results(f.Working)); diff != "" {
		t.Errorf("working: -want +got:\n%s", diff)
	}
}
