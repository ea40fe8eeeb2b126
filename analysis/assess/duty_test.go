package assess

import (
	"math"
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
)

// The preferred values of Iimp and its charge Q (IEC 61643-11:2011, table 3, from
// memory).
func TestChargeOfImpulseCurrents(t *testing.T) {
	for _, row := range []struct{ iimp, charge float64 }{{1e3, 0.5}, {2e3, 1}, {5e3, 2.5}, {10e3, 5}, {12.5e3, 6.25}, {20e3, 10}, {25e3, 12.5}} {
		got, rating := standsCharge(diagram.Protector{Iimp: row.iimp})
		if math.Abs(got-row.charge) > 1e-9 || !strings.Contains(rating, "Iimp") || !strings.Contains(rating, analysis.FigureIn(row.iimp, "A")) {
			t.Errorf("Iimp of %g A: got %g C by its %s, want %g", row.iimp, got, rating, row.charge)
		}
	}
}

// An 8/20 current is A Ip t³ e^(-t/τ) with A = 0.01243 µs⁻³ and τ = 3.911 µs
// (IEEE C62.41.2-2002, clause 6); here it is summed up by the rule of the middle.
func TestChargeOf8x20(t *testing.T) {
	const a, tau, step = 0.01243, 3.911, 1e-3 // µs
	want := 0.0
	for at := step / 2; at < 300; at += step {
		want += a * at * at * at * math.Exp(-at/tau) * step * 1e-6
	}
	if got, _ := standsCharge(diagram.Protector{In: 1}); math.Abs(got-want) > 1e-3*want {
		t.Errorf("got %g C for each ampere, want %g", got, want)
	}
}

// The rating that stands the most counts.
func TestStandsCharge(t *testing.T) {
	for _, row := range []struct {
		name string
		p    diagram.Protector
		want string
	}{
		{"none", diagram.Protector{}, ""},
		{"In", diagram.Protector{In: 20e3}, "In"},
		{"Imax over In", diagram.Protector{In: 20e3, Imax: 40e3}, "Imax"},
		{"In over Imax", diagram.Protector{In: 20e3, Imax: 10e3}, "In"},
		{"a small Iimp over a great Imax", diagram.Protector{In: 20e3, Imax: 40e3, Iimp: 2e3}, "Iimp"},
		{"a great Imax over a small Iimp", diagram.Protector{Imax: 100e3, Iimp: 2e3}, "Imax"}, // 1.75 over 1 C
	} {
		charge, rating := standsCharge(row.p)
		if name, _, _ := strings.Cut(rating, " "); name != row.want || (charge > 0) != (row.want != "") {
			t.Errorf("%s: got %g C by %q, want %q", row.name, charge, rating, row.want)
		}
	}
}

// One that takes just what its rating stands is not overloaded, and one that
// states no rating not known to be.
func TestOverloads(t *testing.T) {
	p := diagram.Protector{Iimp: 10e3}
	for _, row := range []struct {
		p      diagram.Protector
		charge float64
		want   bool
	}{{p, 5, false}, {p, 5.0001, true}, {p, 0, false}, {diagram.Protector{}, 5, false}} {
		if got := overloads(row.p, analysis.Duty{Charge: row.charge}); got != row.want {
			t.Errorf("Iimp of %g A and %g C: got %v", row.p.Iimp, row.charge, got)
		}
	}
}

// What stands a charge: of a 10/350 current half a millisecond times its crest, of
// an 8/20 one 17.45 µs times it, each rounded up to half a kiloampere.
func TestLarger(t *testing.T) {
	for _, row := range []struct {
		charge float64
		wave   diagram.Wave
		want   string
	}{
		{10, diagram.ImpulseWave, "use one of type 1 or class I with an Iimp of at least 20 000 A"},
		{10.001, diagram.ImpulseWave, "use one of type 1 or class I with an Iimp of at least 20 500 A"},
		{0.3, diagram.CurrentWave, "use one with an In or Imax of at least 17 500 A"}, // 17 192 A
		{0.3, diagram.CombinationWave, "use one with an In or Imax of at least 17 500 A"},
	} {
		if got := strings.ReplaceAll(larger(row.charge, row.wave), "\u00a0", " "); got != row.want {
			t.Errorf("%g C of %s: got %q, want %q", row.charge, row.wave, got, row.want)
		}
	}
}

// A lightning current of 20 kA, 10/350, carries 10 C: an Iimp of 25 kA stands
// it, one of 12.5 kA (6.25 C) does not, and an In of 20 kA, 8/20 (0.349 A s) far
// from it. Of what is alike the first mode and the first case are told.
func TestDutyFindings(t *testing.T) {
	surges := []analysis.SurgeResult{
		{Surge: diagram.Surge{Name: "near"}, Protectors: map[diagram.ID][]analysis.Duty{}},
		{Surge: diagram.Surge{Name: "direct"}, Protectors: map[diagram.ID][]analysis.Duty{}},
		{Surge: diagram.Surge{Name: "again"}, Protectors: map[diagram.ID][]analysis.Duty{}},
	}
	doc := house(t)
	set := func(id diagram.ID, alter func(*diagram.Protector)) {
		p, _ := doc.Protector(id)
		alter(&p)
		diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.SetProtector(p) })
		surges[0].Protectors[id] = []analysis.Duty{{Mode: diagram.LineEarth, Charge: 4}, {Mode: diagram.LineNeutral, Charge: 3}}
		surges[1].Protectors[id] = []analysis.Duty{{Mode: diagram.LineLine, Charge: 1}, {Mode: diagram.LineNeutral, Charge: 10}, {Mode: diagram.NeutralEarth, Charge: 9}, {Mode: diagram.LineEarth, Charge: 10}}
		surges[2].Protectors[id] = surges[1].Protectors[id]
	}
	set("one", func(p *diagram.Protector) { p.Iimp = 25e3 })
	set("two", func(p *diagram.Protector) { p.Iimp = 12.5e3 })
	set("three", func(p *diagram.Protector) { p.In = 20e3 })
	set("four", func(*diagram.Protector) {})
	found := dutyFindings(doc, &analysis.Result{Plan: diagram.FirstPlan, Surges: surges})
	for _, row := range []struct {
		id    diagram.ID
		parts []string
	}{
		{"two", []string{"TWO", "10\u00a0C", "L-N", "Iimp of 12\u00a0500\u00a0A", "6.25\u00a0C", "direct"}},
		{"three", []string{"THREE", "10\u00a0C", "L-N", "In of 20\u00a0000\u00a0A", "0.349\u00a0C", "direct"}},
	} {
		at := slices.IndexFunc(found, func(f analysis.Finding) bool { return f.Records[0] == row.id })
		if at < 0 {
			t.Errorf("%s: there is no finding", row.id)
			continue
		}
		f := found[at]
		for _, part := range row.parts {
			if !strings.Contains(f.What+f.Why, part) {
				t.Errorf("%s: got %q, %q, want %q in it", row.id, f.What, f.Why, part)
			}
		}
		if f.Severity != analysis.Error || f.Subject != analysis.SubjectProtector || !slices.Equal(f.Records, []diagram.ID{row.id, "panel"}) {
			t.Errorf("%s: got %s, %s of %v", row.id, f.Severity, f.Subject, f.Records)
		}
	}
	if len(found) != 2 {
		t.Errorf("got %d findings, want 2", len(found))
	}
}
