package rule

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/library"
)

func TestVoltage(t *testing.T) {
	const ln, lg, ng, ll = diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth, diagram.LineLine
	tests := []struct {
		name string
		bus  diagram.System
		p    diagram.Protector
		want []string
	}{
		{"the same", wye480, usual(wye480), nil},
		{"within 10 %", with(wye480, 440), usual(wye480), nil},
		{"one more than 10 %", with(wye480, 431), usual(wye480), []string{"warning: SPD on the bus is made for 480Y/277, and the bus has 431Y/249"}},
		{"much too high", wye208, usual(wye480), []string{"error: SPD on the bus is made for 480Y/277, and the bus has 208Y/120"}},
		{"too high by a step", wye480, usual(with(wye480, 600)), []string{"warning: SPD on the bus is made for 600Y/347, and the bus has 480Y/277"}},
		{"too low", wye480, usual(wye208), []string{"error: SPD on the bus is made for 208Y/120, and the bus has 480Y/277"}},
		{"too low between lines alone, and stands it", split240, usual(wye208), []string{"warning: SPD on the bus is made for 208Y/120, and the bus has 120/240"}},
		{"too low between lines alone, not stated whether it stands it", split240, usual(wye208, rated(0, ll)),
			[]string{"error: SPD on the bus is made for 208Y/120, and the bus has 120/240"}},
		{"too high between lines alone, and lacks a line", wye208, usual(split240), nil},
		{"too low by its system, and one mode of the earthing", with(delta480, 240), usual(wye208, rated(250, ll)), nil},
		{"a higher plate, rated too low", wye480, usual(wye480, madeFor(with(wye480, 830)), rated(150, ln, lg)),
			[]string{"error: SPD on the bus is made for 830Y/479, and the bus has 480Y/277"}},
		{"a plate higher by a step, rated too low", wye480, usual(wye480, madeFor(with(wye480, 600)), rated(250, ln)),
			[]string{"error: SPD on the bus is made for 600Y/347, and the bus has 480Y/277"}},
		{"more than 1000 V", with(wye480, 4160), usual(wye480), []string{"error: SPD on the bus is a protector for low voltage, and the bus has 4160Y/2402"}},
		{"the same, rated for it", with(wye480, 4160), usual(with(wye480, 4160), rated(5000, ln, lg, ng, ll), func(p *diagram.Protector) { p.Modes[ln].Connected = true }),
			[]string{"error: SPD on the bus is a protector for low voltage, and the bus has 4160Y/2402"}},
		{"1000 V", with(wye480, 1000), usual(with(wye480, 1000)), nil},
		{"an arrester of no type", with(wye480, 4160), usual(with(wye480, 4160), func(p *diagram.Protector) { p.Type = "" }), nil},
		{"one line, to neutral the same", wye208, usual(single120), nil},
		{"one line of another voltage", tns400, usual(single120), []string{"error: SPD on the bus is made for 120, and the bus has 400/230 TN-S"}},
		{"no system stated", wye208, usual(wye208, madeFor(diagram.System{})), nil},
		{"bus not known", diagram.System{}, usual(wye208), nil},
		{"high levels, no system stated", wye208, usual(wye480, madeFor(diagram.System{})),
			[]string{"warning: SPD on the bus has levels in L-N, L-G, N-G and L-L far above those usual for 208Y/120"}},
		{"a level at the limit", wye208, usual(wye208, levelOf(1050, ln)), nil},
		{"a level above it", wye208, usual(wye208, levelOf(1200, ln)), []string{"warning: SPD on the bus has levels in L-N far above those usual for 208Y/120"}},
		{"made for an earthing that asks for more", wye480, usual(delta480), []string{"warning: SPD on the bus has levels in L-G far above those usual for 480Y/277"}},
		{"Up as high as equipment stands", tns400, usual(tns400, levelOf(2500, ln, lg)), nil},
		{"Up above it", tns400, usual(tns400, levelOf(2600, lg)), []string{"warning: SPD on the bus has levels in L-G above what equipment on 400/230 TN-S has to withstand"}},
		{"a VPR where Up is usual", tns400, usual(tns400, func(p *diagram.Protector) { p.Rating = diagram.VPR }, levelOf(6000, lg)), nil},
	}
	for _, test := range tests {
		found := Fits(test.p, test.bus, diagram.Codes{})
		complete(t, test.name, found)
		if diff := cmp.Diff(append([]string{}, test.want...), told(found, analysis.SubjectVoltage)); diff != "" {
			t.Errorf("%s: -want +got\n%s", test.name, diff)
		}
	}
}

// A protector for another voltage altogether has that finding alone, with words
// on safety where it would burn.
func TestMisplacedHasOneFinding(t *testing.T) {
	const ln, lg, ll = diagram.LineNeutral, diagram.LineEarth, diagram.LineLine
	for _, test := range []struct {
		name     string
		bus      diagram.System
		p        diagram.Protector
		why, not string
	}{
		{"burns", delta480, usual(wye208), "can burn", "clamps higher"},
		{"protects too little", split240, usual(wye480), "clamps higher", "burn"},
		{"a higher plate burns on the high leg", highLeg, usual(highLeg, madeFor(wye480), rated(150, ln, lg, ll)), "MCOV in L-N, L-G and L-L", "stands the voltage"},
		{"a higher plate burns on a delta", with(delta480, 240), usual(with(delta480, 240), madeFor(wye480), rated(150, lg, ll)), "can burn", "stands the voltage"},
		{"more than low voltage", with(delta480, 2400), usual(delta480), "it can burst", "stands the voltage"},
	} {
		found := Fits(test.p, test.bus, diagram.Codes{})
		if len(found) != 1 || found[0].Subject != analysis.SubjectVoltage || len(found[0].Working) < 1 {
			t.Fatalf("%s: got %+v, want one finding with its working", test.name, found)
		}
		f := found[0]
		if !strings.Contains(f.Why, test.why) || strings.Contains(f.Why, test.not) {
			t.Errorf("%s: got %q; want %q in it, and not %q", test.name, f.Why, test.why, test.not)
		}
		if burns := strings.Contains(f.Remedy, "keep it switched off"); burns != (test.why != "clamps higher") {
			t.Errorf("%s: got remedy %q", test.name, f.Remedy)
		}
	}
}

// One step too high it either clamps higher or merely is marked for another
// system.
func TestOneStepTooHigh(t *testing.T) {
	for _, test := range []struct {
		name string
		bus  diagram.System
		p    diagram.Protector
		why  string
	}{
		{"higher levels", wye480, usual(with(wye480, 600)), "clamps higher"},
		{"the usual levels", wye480, usual(wye480, madeFor(with(wye480, 600))), "its ratings would be enough for this one"},
		{"too low, and stands it", split240, usual(wye208), "its ratings would be enough for this one"},
	} {
		found := Fits(test.p, test.bus, diagram.Codes{})
		if len(found) == 0 || found[0].Subject != analysis.SubjectVoltage || !strings.Contains(found[0].Why, test.why) {
			t.Errorf("%s: got %+v, want %q", test.name, found, test.why)
		}
	}
}

func TestVoltageSources(t *testing.T) {
	for _, test := range []struct {
		codes diagram.Codes
		bus   diagram.System
		want  string
	}{
		{diagram.Codes{}, wye208, "NFPA 70:2023 section 242.12 (check your edition); NFPA 70:2023 section 110.3(B) (check your edition)"},
		{diagram.Codes{NEC: diagram.NEC2017}, wye208, "NFPA 70:2017 section 285.3 (check your edition); NFPA 70:2017 section 110.3(B) (check your edition)"},
		{diagram.Codes{}, earthed(wye208, diagram.TNS), "IEC 60364-5-53:2001 with amendment 2:2015, clause 534.4.4.3 (from memory; check your edition)"},
	} {
		found := Fits(usual(wye480), test.bus, test.codes)
		if len(found) == 0 || found[0].Source != test.want {
			t.Errorf("%+v on %s: got %+v; want source %q", test.codes, test.bus, found, test.want)
		}
	}
}

// The change that mends puts one of the library there, and leaves what does not
// depend on the device. Note and price were those of the device that goes.
func TestReplacement(t *testing.T) {
	before := usual(wye480, func(p *diagram.Protector) {
		p.Note, p.Offset, p.Price, p.Hours, p.External = analysis.TypicalProtector(wye480).Note, 12, 980, 2, true
		p.Type, p.In, p.Imax, p.SCCR = diagram.Type1, 10e3, 100e3, 65e3
		p.Leads.Phase.Length, p.Leads.Bends = 0.9, 3
		p.Breaker = diagram.BreakerData{Rated: 60, Poles: 2, Least: 40, Most: 80}
	})
	doc := building(t, wye208, func(tx *diagram.Tx) { placed(tx, before, "panel") })
	found := checkAll(doc)
	at := 0
	for at < len(found) && found[at].Subject != analysis.SubjectVoltage {
		at++
	}
	if at == len(found) || found[at].Mend.Label != "replace SPD by one that fits" {
		t.Fatalf("got %+v, want a change that puts another in its place", found)
	}
	if _, err := doc.Edit(found[at].Mend.Apply); err != nil {
		t.Fatal(err)
	}
	after, _ := doc.Protector("spd")
	kinds := library.BuiltIn()
	kind := kinds[slices.IndexFunc(kinds, func(e library.Entry) bool { return e.Protector.ID == "type-1-208Y-120" })].Protector
	want := kind
	want.ID, want.Plan, want.Bus, want.Name, want.Offset, want.Leads = "spd", diagram.FirstPlan, "panel", before.Name, before.Offset, before.Leads
	want.Breaker.Rated, want.Breaker.Poles = 60, 2
	for _, lead := range []*diagram.Lead{&want.Leads.Phase, &want.Leads.Neutral, &want.Leads.Earth} {
		lead.Area = kind.Leads.Phase.Area // it comes with thicker ones
	}
	want.Note = after.Note
	if diff := cmp.Diff(want, after); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	if left := told(checkAll(doc), analysis.SubjectVoltage); len(left) > 0 {
		t.Errorf("got %v after it", left)
	}
}

// Across the ocean the currents and the type are those of the other practice.
func TestTakeUsualOfOtherPractice(t *testing.T) {
	doc := building(t, tt400, func(tx *diagram.Tx) { placed(tx, usual(wye208), "panel") })
	s := site{place: &place{system: tt400, sheet: &sheet{iec: true}}, protector: diagram.Protector{ID: "spd"}}
	if _, err := doc.Edit(s.takeUsual().Apply); err != nil {
		t.Fatal(err)
	}
	p, _ := doc.Protector("spd")
	if p.Type != diagram.ClassII || p.Rating != diagram.Up || p.Modes[diagram.LineEarth].Connected || !p.Modes[diagram.NeutralEarth].Switching {
		t.Errorf("got %+v, want class II with a gap from neutral to earth", p)
	}
	if p.Leads.Earth.Area != 6e-6 {
		t.Errorf("got an earth lead of %g m², want 6 mm²: 10 AWG is too thin for class II", p.Leads.Earth.Area)
	}
	if found := Fits(p, tt400, diagram.Codes{}); len(found) > 0 {
		t.Errorf("got %+v, want nothing", found)
	}
}

// No change is offered where a nameplate has to be read first, nor one to a
// protector of the practice that does not count.
func TestNoChangeOnDoubt(t *testing.T) {
	const ln, lg = diagram.LineNeutral, diagram.LineEarth
	for _, test := range []struct {
		name  string
		bus   diagram.System
		p     diagram.Protector
		codes diagram.Codes
		want  bool
	}{
		{"burns", wye480, usual(wye208), diagram.Codes{}, true},
		{"clamps higher", split240, usual(wye480), diagram.Codes{}, true},
		{"a nameplate that contradicts itself", wye480, usual(wye480, madeFor(with(wye480, 830)), rated(150, ln, lg)), diagram.Codes{}, false},
		{"the marking alone", with(wye480, 431), usual(wye480), diagram.Codes{}, false},
		{"levels of another system", wye208, usual(wye208, levelOf(1200, ln)), diagram.Codes{}, false},
		{"not listed for the earthing", hrg480, usual(wye480, only(lg), rated(550, lg)), diagram.Codes{}, false},
		{"listed for another", hrg480, usual(delta480), diagram.Codes{}, false},
		{"does not stand the earthing", hrg480, usual(wye480, only(lg)), diagram.Codes{}, true},
		{"the high leg", highLeg, usual(wye208), diagram.Codes{}, true},
		{"the high leg, which of the two ratings", highLeg, usual(highLeg, rated(150, ln)), diagram.Codes{}, false},
		{"by IEC on a solid neutral", wye480, usual(wye208), diagram.Codes{Practice: diagram.IECPractice}, false},
		{"by North America on TN-S", tns400, usual(single120), diagram.Codes{Practice: diagram.NECPractice}, false},
	} {
		found := Fits(test.p, test.bus, test.codes)
		if len(found) == 0 {
			t.Errorf("%s: got nothing", test.name)
			continue
		}
		for _, f := range found {
			if f.Mend.IsThere() != test.want {
				t.Errorf("%s: got the change %q for %q; want one: %v", test.name, f.Mend.Label, f.What, test.want)
			}
		}
	}
}

// The one that comes across the ocean clears what flows there, and is of class I
// where that is wanted.
func TestReplacementInItsPlace(t *testing.T) {
	for _, test := range []struct {
		name      string
		kind      diagram.Type
		lightning diagram.LightningSystem
		marked    float64 // A
		want      diagram.Type
	}{
		{"enough", diagram.Type2, diagram.NoLightningSystem, 6e3, diagram.ClassII},
		{"more flows than those of class II clear", diagram.Type2, diagram.NoLightningSystem, 40e3, diagram.ClassI},
		{"class I is wanted", diagram.Type2, diagram.LightningII, 6e3, diagram.ClassI},
		{"for the point of use", diagram.Type3, diagram.NoLightningSystem, 6e3, diagram.ClassII},
	} {
		doc := building(t, tns400, func(tx *diagram.Tx) {
			supply, _ := tx.Part("supply")
			supply.Exposure.Lightning = test.lightning
			tx.SetPart(supply)
			tx.SetPart(diagram.Part{ID: "panel", Kind: diagram.Panel, Name: "Panel", Board: diagram.BoardData{Service: true, MainBreaker: 100, FaultCurrent: test.marked}})
			placed(tx, usual(wye208, func(p *diagram.Protector) { p.Type = test.kind }), "panel")
		})
		for _, f := range checkAll(doc) {
			if f.Subject != analysis.SubjectVoltage {
				continue
			}
			if _, err := doc.Edit(f.Mend.Apply); err != nil {
				t.Fatal(err)
			}
		}
		if p, _ := doc.Protector("spd"); p.Type != test.want || p.SCCR < test.marked {
			t.Errorf("%s: got one of %s with an SCCR of %g A, want %s", test.name, p.Type, p.SCCR, test.want)
		}
	}
}

func TestNoUsualRatingsNoChange(t *testing.T) {
	f := Fits(usual(wye480), with(delta480, 1000), diagram.Codes{})
	if len(f) == 0 || f[0].Mend.IsThere() {
		t.Errorf("got %+v, want a finding without a change: nothing is usual at 1000 V", f)
	}
}

// Another protector for two lines has a breaker of two poles where the old one had one
// of three, and none where it had none.
func TestUsualOneHasItsPoles(t *testing.T) {
	for before, after := range map[int]int{3: 2, 0: 0} {
		old := usual(wye480, func(p *diagram.Protector) { p.Breaker.Poles = before })
		doc := building(t, split240, func(tx *diagram.Tx) { placed(tx, old, "panel") })
		found := Fits(old, split240, diagram.Codes{})
		if len(found) == 0 || !found[0].Mend.IsThere() {
			t.Fatalf("got %+v, want one that another protector mends", found)
		}
		if _, err := doc.Edit(found[0].Mend.Apply); err != nil {
			t.Fatal(err)
		}
		if p, _ := doc.Protector("spd"); p.Breaker.Poles != after || p.System.Lines() != 2 {
			t.Errorf("%d poles: got %d for %s, want %d", before, p.Breaker.Poles, p.System, after)
		}
	}
}
