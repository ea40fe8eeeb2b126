package rule_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// plant is a service board, a transformer with a board behind it, an emergency
// board behind a transfer switch, and a load at each of the two.
func plant(t *testing.T) *sketch {
	return newSketch(t).later().supply(wyeOf480, diagram.Exposure{}).panels("main", "shop", "standby").
		part(diagram.Part{ID: "set", Kind: diagram.Generator, System: wyeOf480}).
		part(diagram.Part{ID: "switch", Kind: diagram.TransferSwitch}).
		part(diagram.Part{ID: "step-down", Kind: diagram.Transformer, System: wyeOf208}).
		part(diagram.Part{ID: "machine", Kind: diagram.Load}).
		part(diagram.Part{ID: "lift", Kind: diagram.Load}).
		feed(6, "supply > main", "set > switch:emergency", "main > switch:normal", "switch:load > standby").
		feed(9, "main > step-down:primary", "step-down:secondary > shop", "shop > machine", "standby > lift")
}

// elevatorOn is an elevator behind a transfer switch, on whose emergency side a
// board for the use stands.
func elevatorOn(t *testing.T, use diagram.Use) *sketch {
	return newSketch(t).later().supply(wyeOf480, diagram.Exposure{}).panels("main", "genset").
		part(diagram.Part{ID: "set", Kind: diagram.Generator, System: wyeOf480}).
		part(diagram.Part{ID: "switch", Kind: diagram.TransferSwitch}).
		part(diagram.Part{ID: "lift", Kind: diagram.Load, Use: diagram.ElevatorUse}).use("genset", use).
		feed(6, "supply > main", "main > switch:normal", "set > genset", "genset > switch:emergency", "switch:load > lift")
}

// Each row asks in every edition unless it says otherwise: 700.8 counts since
// 2014, 620.51(E), 645.18, 670.6 and 695.15 since 2017, 694.7(D) and 708.20(D)
// since 2011 or before (from memory).
func TestUses(t *testing.T) {
	tests := []struct {
		name  string
		sheet *sketch
		want  []string // with the edition left out
	}{
		{"nothing in particular", plant(t), []string{}},

		{"emergency board", plant(t).use("standby", diagram.EmergencyUse), []string{"error standby: 700.8"}},
		{"emergency board, protected above only", plant(t).use("standby", diagram.EmergencyUse).protect(diagram.Type2, "main"), []string{"error standby: 700.8"}},
		{"emergency board, protected", plant(t).use("standby", diagram.EmergencyUse).protect(diagram.Type2, "standby"), []string{}},
		{"emergency load", plant(t).use("lift", diagram.EmergencyUse), []string{}},

		{"fire pump", plant(t).use("machine", diagram.FirePumpUse), []string{"error machine: 695.15"}},
		{"fire pump, protected at its board only", plant(t).use("machine", diagram.FirePumpUse).protect(diagram.Type2, "shop"), []string{"error machine: 695.15"}},
		{"fire pump, protected", plant(t).use("machine", diagram.FirePumpUse).protect(diagram.Type3, "machine"), []string{}},
		{"fire pump and its board", plant(t).use("machine", diagram.FirePumpUse).use("shop", diagram.FirePumpUse), []string{"error machine: 695.15"}},

		{"elevator", plant(t).use("machine", diagram.ElevatorUse), []string{}},
		{"elevator behind a transfer switch", plant(t).use("lift", diagram.ElevatorUse), []string{"warning lift: 620.51(E)"}},
		{
			"elevator on an emergency board", plant(t).use("lift", diagram.ElevatorUse).use("standby", diagram.EmergencyUse),
			[]string{"error lift: 620.51(E)", "error standby: 700.8"},
		},
		{
			"elevator on the other side of whose transfer switch an emergency board stands",
			elevatorOn(t, diagram.EmergencyUse), []string{"error genset: 700.8", "error lift: 620.51(E)"},
		},
		{"the same board for something else", elevatorOn(t, ""), []string{"warning lift: 620.51(E)"}},
		{
			"board of an elevator that feeds an emergency load, too",
			plant(t).use("shop", diagram.ElevatorUse).use("machine", diagram.EmergencyUse), []string{"error shop: 620.51(E)"},
		},
		{
			"the same, protected",
			plant(t).use("shop", diagram.ElevatorUse).use("machine", diagram.EmergencyUse).protect(diagram.Type2, "shop"), []string{},
		},
		{
			"elevator on a protected emergency board",
			plant(t).use("lift", diagram.ElevatorUse).use("standby", diagram.EmergencyUse).protect(diagram.Type2, "standby"), []string{},
		},
		{"elevator, protected", plant(t).use("lift", diagram.ElevatorUse).protect(diagram.Type2, "lift"), []string{}},

		{"machine", plant(t).use("machine", diagram.MachineSafetyUse), []string{"error machine: 670.6"}},
		{"machine on a protected board", plant(t).use("machine", diagram.MachineSafetyUse).protect(diagram.Type2, "shop"), []string{}},
		{"machine behind a transformer", plant(t).use("machine", diagram.MachineSafetyUse).protect(diagram.Type2, "main"), []string{"error machine: 670.6"}},
		{"board of machines behind a transformer", plant(t).use("shop", diagram.MachineSafetyUse).protect(diagram.Type2, "main"), []string{"error shop: 670.6"}},
		{
			"machine behind a transformer, with a protector on a junction ahead of it",
			newSketch(t).later().supply(wyeOf480, diagram.Exposure{}).part(diagram.Part{ID: "box", Kind: diagram.Junction}).
				part(diagram.Part{ID: "step-down", Kind: diagram.Transformer, System: wyeOf208}).
				part(diagram.Part{ID: "machine", Kind: diagram.Load, Use: diagram.MachineSafetyUse}).
				feed(9, "supply > box", "box > step-down:primary", "step-down:secondary > machine").protect(diagram.Type1, "box"),
			[]string{"error machine: 670.6"},
		},

		{"data", plant(t).use("machine", diagram.CriticalDataUse), []string{"error machine: 645.18"}},
		{"data, protected", plant(t).use("machine", diagram.CriticalDataUse).protect(diagram.Type3, "machine"), []string{}},

		{"wind turbine", plant(t).use("shop", diagram.WindTurbineFeedUse), []string{"warning shop: 694.7(D)"}},
		{"wind turbine, protected", plant(t).use("shop", diagram.WindTurbineFeedUse).protect(diagram.Type2, "shop"), []string{}},
		{"wind turbine, protected at the service", plant(t).use("shop", diagram.WindTurbineFeedUse).protect(diagram.Type2, "main"), []string{}},

		{"critical power on two levels", plant(t).use("machine", diagram.CriticalPowerUse), []string{"warning main: 708.20(D)", "warning shop: 708.20(D)"}},
		{"critical power, upper level protected", plant(t).use("machine", diagram.CriticalPowerUse).protect(diagram.Type2, "main"), []string{"warning shop: 708.20(D)"}},
		{"critical power, lower level protected", plant(t).use("machine", diagram.CriticalPowerUse).protect(diagram.Type2, "machine"), []string{"warning main: 708.20(D)"}},
		{"critical power, both", plant(t).use("machine", diagram.CriticalPowerUse).protect(diagram.Type2, "shop", "main"), []string{}},
		{
			"each level once", plant(t).use("machine", diagram.CriticalPowerUse).use("shop", diagram.CriticalPowerUse).use("lift", diagram.CriticalPowerUse),
			[]string{"warning main: 708.20(D)", "warning shop: 708.20(D)"},
		},
		{
			"a protector elsewhere on the level", plant(t).use("machine", diagram.CriticalPowerUse).protect(diagram.Type2, "standby"),
			[]string{"warning main: 708.20(D)", "warning shop: 708.20(D)"},
		},

		{
			"medium voltage",
			newSketch(t).later().supply(diagram.System{Wiring: diagram.Wye, Voltage: 4160, Earthing: diagram.Solid}, diagram.Exposure{}).
				part(diagram.Part{ID: "pump", Kind: diagram.Load, Use: diagram.FirePumpUse}).feed(9, "supply > pump"),
			[]string{},
		},
	}
	for _, test := range tests {
		for _, edition := range diagram.NECEditions() {
			want := []string{}
			for _, line := range test.want {
				want = append(want, withEdition(line, edition))
			}
			got := brief(test.sheet.codes(diagram.Codes{NEC: edition}).about(analysis.SubjectRequired))
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("%s, edition %s (want -, got +):\n%s", test.name, edition, diff)
			}
		}
		iec := test.sheet.codes(diagram.Codes{Practice: diagram.IECPractice})
		if got := iec.about(analysis.SubjectRequired); len(got) > 0 {
			t.Errorf("%s: IEC practice asks for %q", test.name, brief(got))
		}
	}
}

func TestUseTexts(t *testing.T) {
	const applies = "; check whether it applies to your building"
	source := func(section string) string { return "NFPA 70:2023 section " + section + " (check your edition)" }
	tests := []struct {
		name                      string
		sheet                     *sketch
		what, why, remedy, source string
	}{
		{
			"emergency board", plant(t).use("standby", diagram.EmergencyUse),
			"standby, a board of an emergency system, has no protector",
			"every switchboard and panel of an emergency system has to have one in or on it" + applies,
			"place a listed one on standby", source("700.8"),
		},
		{
			"fire pump", plant(t).use("machine", diagram.FirePumpUse),
			"machine, a fire pump, has no protector",
			"the controller of a fire pump has to have one in or on it" + applies,
			"place a listed one on machine", source("695.15"),
		},
		{
			"elevator", plant(t).use("lift", diagram.ElevatorUse).use("standby", diagram.EmergencyUse),
			"lift, an elevator fed from standby of the emergency system, has no protector, on it or on the board that feeds it",
			"where the disconnect of an elevator supplies a load of an emergency system, it has to have one" + applies,
			"place a listed one on lift", source("620.51(E)"),
		},
		{
			"machine", plant(t).use("machine", diagram.MachineSafetyUse),
			"machine, machinery with safety circuits, has no protector, on it or on the board that feeds it",
			"industrial machinery with safety circuits that nothing else protects has to have one" + applies,
			"place a listed one on machine", source("670.6"),
		},
		{
			"machine, 2020", plant(t).use("machine", diagram.MachineSafetyUse).codes(diagram.Codes{NEC: diagram.NEC2020}),
			"machine, machinery with safety circuits, has no protector, on it or on the board that feeds it",
			"industrial machinery with safety interlock circuits has to have one" + applies,
			"place a listed one on machine", "NFPA 70:2020 section 670.6 (check your edition)",
		},
		{
			"data", plant(t).use("machine", diagram.CriticalDataUse),
			"machine, of a critical operations data system, has no protector, on it or on the board that feeds it",
			"a critical operations data system has to have one" + applies,
			"place a listed one on machine", source("645.18"),
		},
		{
			"wind turbine", plant(t).use("shop", diagram.WindTurbineFeedUse),
			"No protector stands on shop, which a wind turbine feeds, or above it",
			"between a wind turbine and the loads that it serves there has to be one" + applies,
			"place a listed one on shop", source("694.7(D)"),
		},
		{
			"critical power", plant(t).use("machine", diagram.CriticalPowerUse),
			"The critical operations power system has no protector on its level of 480Y/277, from main on",
			"a critical operations power system has to have one at every voltage level" + applies,
			"place a listed one on main", source("708.20(D)"),
		},
	}
	for _, test := range tests {
		found := test.sheet.about(analysis.SubjectRequired)
		if len(found) == 0 {
			t.Errorf("%s: found nothing", test.name)
			continue
		}
		t.Run(test.name, func(t *testing.T) { checkTexts(t, found[0], test.what, test.why, test.remedy, test.source) })
		left := test.sheet.apply(found[0]).about(analysis.SubjectRequired)
		if len(left) != len(found)-1 {
			t.Errorf("%s: %q before it was mended, %q after", test.name, brief(found), brief(left))
		}
	}
}

// What feeds critical loads comes first.
func TestRequiredIsCritical(t *testing.T) {
	s := plant(t).use("standby", diagram.EmergencyUse).use("shop", diagram.EmergencyUse).
		alter("lift", func(p *diagram.Part) { p.Load.Critical = true })
	found := s.about(analysis.SubjectRequired)
	if len(found) != 2 || found[0].Records[0] != "standby" || !found[0].Critical || found[1].Critical {
		t.Errorf("got %q, want the critical standby first", brief(found))
	}
}

// On the building as found a requirement is a warning: it may be older than the
// edition, which counts for new work and for what is replaced.
func TestRequiredAsFound(t *testing.T) {
	s := newSketch(t).supply(splitOf240, diagram.Exposure{Occupancy: diagram.Dwelling}).panels("main").part(diagram.Part{ID: "pump", Kind: diagram.Load, Use: diagram.FirePumpUse}).
		feed(3, "supply > main", "main > pump")
	want := []string{"warning main: NFPA 70:2023 section 230.67", "warning pump: NFPA 70:2023 section 695.15"}
	if diff := cmp.Diff(want, brief(s.about(analysis.SubjectRequired))); diff != "" {
		t.Errorf("as found (want -, got +):\n%s", diff)
	}
	tellsWhyMild(t, s, true)
	want = []string{"error main: NFPA 70:2023 section 230.67", "error pump: NFPA 70:2023 section 695.15"}
	if diff := cmp.Diff(want, brief(s.later().about(analysis.SubjectRequired))); diff != "" {
		t.Errorf("in a later plan (want -, got +):\n%s", diff)
	}
	tellsWhyMild(t, s, false)
}

// tellsWhyMild looks whether each finding says that it is a warning only as found.
func tellsWhyMild(t *testing.T, s *sketch, want bool) {
	t.Helper()
	for _, f := range s.about(analysis.SubjectRequired) {
		if strings.Contains(f.Why, "a warning here and an error in a plan of new work") != want {
			t.Errorf("it says %q", f.Why)
		}
	}
}

// One of which no mode is stated protects nothing that is known.
func TestBlankProtectorCountsForNothing(t *testing.T) {
	blank := func(s *sketch, host diagram.ID) *sketch {
		return s.edit(func(tx *diagram.Tx) {
			tx.SetProtector(diagram.Protector{ID: "blank", Plan: diagram.FirstPlan, Bus: host, Type: diagram.Type2, In: 20e3})
		})
	}
	tests := []struct {
		name  string
		sheet *sketch
		want  []string
	}{
		{"dwelling", blank(house(t, diagram.Dwelling), "main"), []string{"error main: NFPA 70:2023 section 230.67"}},
		{"emergency board", blank(plant(t).use("standby", diagram.EmergencyUse), "standby"), []string{"error standby: NFPA 70:2023 section 700.8"}},
		{"fire pump", blank(plant(t).use("machine", diagram.FirePumpUse), "machine"), []string{"error machine: NFPA 70:2023 section 695.15"}},
		{"machine on its board", blank(plant(t).use("machine", diagram.MachineSafetyUse), "shop"), []string{"error machine: NFPA 70:2023 section 670.6"}},
		{"wind turbine", blank(plant(t).use("shop", diagram.WindTurbineFeedUse), "main"), []string{"warning shop: NFPA 70:2023 section 694.7(D)"}},
		{"critical power", blank(plant(t).use("lift", diagram.CriticalPowerUse), "main"), []string{"warning main: NFPA 70:2023 section 708.20(D)"}},
	}
	for _, test := range tests {
		if diff := cmp.Diff(test.want, brief(test.sheet.about(analysis.SubjectRequired))); diff != "" {
			t.Errorf("%s (want -, got +):\n%s", test.name, diff)
		}
	}
}
