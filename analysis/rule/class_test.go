package rule_test

import (
	"testing"

	"clampline/analysis"
	"clampline/analysis/rule"
	"clampline/diagram"
)

// clinicSite is an installation by IEC: a supply, a board "main" with its
// disconnect, a board "ward" and a load "lamp".
func clinicSite(t *testing.T) *site {
	return newSite(t, tnsOf400).board("main", diagram.BoardData{Service: true}).board("ward", diagram.BoardData{}).kind(diagram.Load, "lamp").
		wire(5, "", "supply > main").wire(20, diagram.Breaker, "main > ward", "ward > lamp")
}

// level is the exposure of a building with a lightning protection system.
func level(l diagram.LightningSystem) diagram.Exposure { return diagram.Exposure{Lightning: l} }

func TestClassAndPlace(t *testing.T) {
	two, three := of(diagram.ClassII), of(diagram.ClassIII)
	both := func(p *diagram.Protector) { p.Type, p.Iimp = diagram.ClassII, 12.5e3 }
	const wanted = "error: SPD on main is class II at the origin of a building with a lightning protection system"
	const alone = "warning: SPD on lamp is class III, and no class I or II protector stands upstream of it"
	line := diagram.Exposure{LowOverhead: 300}
	checkRows(t, analysis.SubjectPlace, []siteRow{
		{"class II at the origin", clinicSite(t).attach("main", two), nil},
		{"under a lightning protection system", clinicSite(t).exposed(level(diagram.LightningIII)).attach("main", two), []string{wanted}},
		{"of a level that is not known", clinicSite(t).exposed(level(diagram.LightningUnknown)).attach("main", two), []string{wanted}},
		{"there is none", clinicSite(t).exposed(level(diagram.NoLightningSystem)).attach("main", two), nil},
		{"class I", clinicSite(t).exposed(level(diagram.LightningIII)).attach("main", of(diagram.ClassI)), nil},
		{"class II tested with Iimp too", clinicSite(t).exposed(level(diagram.LightningIII)).attach("main", both), nil},
		{"one of class I beside it", clinicSite(t).exposed(level(diagram.LightningIII)).attach("main", of(diagram.ClassI)).attach("main", two), nil},
		{"one of class I ahead of it", newSite(t, tnsOf400).exposed(level(diagram.LightningIII)).kind(diagram.Junction, "box").board("main", diagram.BoardData{Service: true}).
			wire(5, "", "supply > box", "box > main").attach("box", of(diagram.ClassI)).attach("main", two), nil},
		{"behind the transformer of the supply", newSite(t, tnsOf400).exposed(level(diagram.LightningIII)).stepDown("T1", tnsOf400, tnsOf400).board("main", diagram.BoardData{}).
			wire(5, "", "supply > T1:primary", "T1:secondary > main").attach("main", two), []string{wanted}},
		{"another service board above it", clinicSite(t).exposed(level(diagram.LightningIII)).board("barn", diagram.BoardData{Service: true}).wire(9, "", "main > barn").attach("barn", two), nil},
		{"a board without the service disconnect above it", newSite(t, tnsOf400).exposed(level(diagram.LightningIII)).board("meter", diagram.BoardData{}).board("main", diagram.BoardData{Service: true}).
			wire(5, "", "supply > meter", "meter > main").attach("main", two), []string{wanted}},
		{"not at the origin", clinicSite(t).exposed(level(diagram.LightningIII)).attach("ward", two), nil},
		{"an overhead line", clinicSite(t).exposed(line).attach("main", two), []string{"note: SPD on main is class II at the origin of a building that an overhead low-voltage line feeds"}},
		{"an overhead line, class I", clinicSite(t).exposed(line).attach("main", of(diagram.ClassI)), nil},
		{"an underground line", clinicSite(t).exposed(diagram.Exposure{LowCable: 300}).attach("main", two), nil},
		{"class III alone", clinicSite(t).attach("lamp", three), []string{alone}},
		{"class III after class II", clinicSite(t).attach("main", two).attach("lamp", three), nil},
		{"class III after class III", clinicSite(t).attach("ward", three).attach("lamp", three), []string{
			"warning: SPD on ward is class III, and no class I or II protector stands upstream of it", alone}},
		{"class III after one of a class that is not known", clinicSite(t).attach("main", of("")).attach("lamp", three), []string{"note: The class of SPD on main is not stated"}},
		{"by NFPA 70", served(t).exposed(level(diagram.LightningIII)).attach("main"), nil},
	})
}

// A protector that is looked at before it stands there counts for itself.
func TestClassBeforeItStands(t *testing.T) {
	in := clinicSite(t).exposed(level(diagram.LightningIII)).input()
	for iimp, want := range map[float64]int{0: 1, 12.5e3: 0} {
		got := 0
		for _, f := range rule.CheckAt(in, "main")(plain("", "main", of(diagram.ClassII), func(p *diagram.Protector) { p.Iimp = iimp })) {
			if f.Subject == analysis.SubjectPlace {
				got++
			}
		}
		if got != want {
			t.Errorf("Iimp %g: got %d findings, want %d", iimp, got, want)
		}
	}
}

func TestClassTexts(t *testing.T) {
	checkTexts(t, clinicSite(t).exposed(level(diagram.LightningI)).attach("main", of(diagram.ClassII)).one(analysis.SubjectPlace),
		"SPD on main is class II at the origin of a building with a lightning protection system",
		"a flash to the building drives part of its current out through the supply; only class I is tested with such a wave",
		"use a class I, or class I and II, protector here",
		"IEC 60364-5-53:2001 with amendment 2:2015, clause 534.4.1 (from memory; check your edition)")
}

// A residual-current device between the supply and a protector carries what that
// leads to earth.
func TestResidualAhead(t *testing.T) {
	residual := func(run int, system diagram.System) *site {
		s := newSite(t, system).board("main", diagram.BoardData{Service: true}).board("ward", diagram.BoardData{}).kind(diagram.Load, "lamp").
			wire(5, diagram.Breaker, "supply > main", "main > ward", "ward > lamp")
		s.edit(func(tx *diagram.Tx) {
			i := 0
			for f := range tx.Document().Feeders() {
				if f.Switch.Residual = i == run; f.Switch.Residual {
					tx.SetFeeder(f)
				}
				i++
			}
		})
		return s
	}
	two := of(diagram.ClassII)
	behind := func(host, feeder string) []string {
		return []string{"note: SPD on " + host + " stands behind the residual-current device of feeder " + feeder}
	}
	checkRows(t, analysis.SubjectPlace, []siteRow{
		{"ahead of the main board", residual(0, tnsOf400).attach("main", two), behind("main", "supply – main")},
		{"class I", residual(0, tnsOf400).attach("main", of(diagram.ClassI)), behind("main", "supply – main")},
		{"ahead of the board above", residual(0, tnsOf400).attach("ward", two), behind("ward", "supply – main")},
		{"below the protector", residual(1, tnsOf400).attach("main", two), nil},
		{"none", residual(9, tnsOf400).attach("main", two), nil},
		{"class III at the point of use", residual(1, tnsOf400).attach("main", two).attach("lamp", of(diagram.ClassIII)), nil},
		{"by NFPA 70", residual(0, wyeOf208).attach("main", fused), nil},
	})
	checkTexts(t, residual(0, tnsOf400).attach("main", two).one(analysis.SubjectPlace),
		"SPD on main stands behind the residual-current device of feeder supply – main",
		"a surge that the protector leads to earth flows through that device and can trip or damage it",
		"check that it withstands surge currents of at least 3 kA 8/20, as type S devices do, or connect the protector ahead of it",
		"IEC 60364-5-53:2001 with amendment 2:2015, clause 534.4.7 (from memory; check your edition)")
}

// The origin is where the layout has the service equipment, or what stands ahead
// of it.
func TestOrigin(t *testing.T) {
	medium := diagram.System{Wiring: diagram.Wye, Voltage: 11_000, Earthing: diagram.Impedance, Frequency: 50}
	two := of(diagram.ClassII)
	const wanted = "error: SPD on main is class II at the origin of a building with a lightning protection system"
	plant := func(data diagram.BoardData) *site {
		s := newSite(t, medium)
		s.codes(diagram.Codes{Practice: diagram.IECPractice})
		return s.exposed(level(diagram.LightningIII)).kind(diagram.Switchboard, "gear").stepDown("T1", medium, tnsOf400).
			board("main", data).board("hall", diagram.BoardData{Service: true}).
			wire(5, diagram.Breaker, "supply > gear", "gear > T1:primary", "T1:secondary > main", "main > hall")
	}
	checkRows(t, analysis.SubjectPlace, []siteRow{
		{"behind the customer's switchboard and transformer", plant(diagram.BoardData{Service: true}).attach("main", two), []string{wanted}},
		{"a service board below another", plant(diagram.BoardData{Service: true}).attach("hall", two), nil},
		{"ahead of the service board", plant(diagram.BoardData{}).attach("main", two), []string{wanted}},
		{"behind a transformer inside", clinicSite(t).exposed(level(diagram.LightningIII)).stepDown("T1", tnsOf400, tnsOf400).board("low", diagram.BoardData{Service: true}).
			wire(5, diagram.Breaker, "main > T1:primary", "T1:secondary > low").attach("low", two), nil},
	})
}
