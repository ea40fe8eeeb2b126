package assess_test

import (
	"context"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/diagram"
	"clampline/diagram/file/filetest"
)

// argued is a finding on a demo with the reason why it is true, worked out by
// hand from the sheet.
type argued struct{ finding, because string }

// Every finding on the demos has been argued, and there is no other. Where a
// figure of the hand rule decides, the sum stands there: VPR + 25 V for each inch
// beyond six, Up + 1 kV/m of each lead, 50 V/m of wiring, at most twice. Category
// I to IV is 800, 1500, 2500, 4000 V at 120 V and 1500, 2500, 4000, 6000 V at 230
// and 277 V (IEC 60664-1).
func TestFindingsOfDemosAreArgued(t *testing.T) {
	tables := map[string][]argued{
		"Tern Quay Marine Laboratory, As found":    ternQuayAsFound(),
		"Tern Quay Marine Laboratory, Upgrade A":   ternQuayUpgraded(),
		"Fell Farm Dairy, As found":                fellFarmAsFound(),
		"Fell Farm Dairy, With parlour protector":  fellFarmUpgraded(),
		"Saltmarsh Clinic, As found":               saltmarshAsFound(),
		"Saltmarsh Clinic, With imaging protector": saltmarshUpgraded(),
	}
	seen := map[string]bool{}
	for _, doc := range filetest.Demos(t) {
		for _, plan := range doc.Plans() {
			name := doc.Info().Title + ", " + plan.Name
			seen[name] = true
			if diff := cmp.Diff(findingsOf(tables[name]), found(t, doc, plan.ID)); diff != "" {
				t.Errorf("%s: -argued +found\n%s", name, diff)
			}
		}
	}
	if want := slices.Sorted(maps.Keys(tables)); !slices.Equal(want, slices.Sorted(maps.Keys(seen))) {
		t.Errorf("the demos have the plans %v, and argued are %v", slices.Sorted(maps.Keys(seen)), want)
	}
}

// The demos show every subject of the rules at least once.
func TestDemosShowEverySubject(t *testing.T) {
	shown := map[string]bool{}
	for _, doc := range filetest.Demos(t) {
		for _, plan := range doc.Plans() {
			for _, line := range found(t, doc, plan.ID) {
				shown[strings.Split(line, ": ")[1]] = true
			}
		}
	}
	for _, subject := range []string{
		analysis.SubjectSupply, analysis.SubjectVoltage, analysis.SubjectPhases, analysis.SubjectEarthing, analysis.SubjectContinuous,
		analysis.SubjectPlace, analysis.SubjectFault, analysis.SubjectDischarge, analysis.SubjectBreaker, analysis.SubjectLeads,
		analysis.SubjectRequired, analysis.SubjectRisk, analysis.SubjectNameplate, analysis.SubjectCover,
	} {
		if !shown[subject] {
			t.Errorf("no demo has a finding on %s", subject)
		}
	}
}

func findingsOf(table []argued) []string {
	out := make([]string, len(table))
	for i, row := range table {
		out[i] = row.finding
	}
	slices.Sort(out)
	return out
}

func found(t *testing.T, doc *diagram.Document, plan diagram.ID) []string {
	t.Helper()
	result, err := assess.Run(context.Background(), doc, plan)
	if err != nil {
		t.Fatal(err)
	}
	out := make([]string, len(result.Findings))
	for i, f := range result.Findings {
		out[i] = strings.ReplaceAll(f.Severity.String()+": "+f.Subject+": "+f.What, "\u00a0", " ")
	}
	slices.Sort(out)
	return out
}

func ternQuayAsFound() []argued {
	const coldStore = "its feeder has an open breaker"
	return []argued{
		{"error: breaker: The breaker of SPD-6 on Lighting has 2 poles, and 3 lines lead to the protector", "208Y/120 has three lines"},
		{"warning: breaker: The breaker of SPD-5 on Workshop is shared with other loads", "the sheet says that it is shared"},
		{"error: cover: Mass spectrometer: Exceeded, 1 500 V L-N, 188 % of 800 V", "700 + 20 in × 25 + 6 m × 50 = 1500 V; category I"},
		{"error: cover: Fire pump: Exceeded, 4 250 V L-L, 106 % of 4 000 V", "2000 + 12 × 25 = 2300; 14 + 3 + 22 m × 50 = 1950; category III"},
		{"error: cover: Emergency lights: Unreached, no protector holds L-G", "SPD-6 above has L-N alone"},
		{"error: cover: Navigation light: Unreached, no protector holds L-N", "its supply has no protector anywhere"},
		{"error: cover: Lab panel LP-1: Unreached, no protector holds L-N", "T1 stands between it and SPD-1, and it has none"},
		{"error: cover: Lighting: Unreached, no protector holds L-G", "SPD-6 has L-N alone"},
		{"error: cover: Room cooling: Exceeded, 1 950 V L-L, 130 % of 1 500 V", "1200 + 6 × 25 + 12 m × 50; category II"},
		{"error: cover: Cold store (off): Unreached, no protector holds L-G", coldStore},
		{"error: cover: Dock pedestal: Exceeded, 4 600 V L-L, 184 % of 2 500 V", "2300 V doubles within 90 m; category II"},
		{"warning: cover: Quay light pillar: Unreached, no protector holds L-N", "SPD-8 stands 45 m below it, at the only board next downstream, as 230.67(B) lets it"},
		{"warning: cover: Weather mast: Unknown, not evaluated: withstand not known", "the sheet does not say"},
		{"warning: cover: Instruments: Unknown, not evaluated: rating not known", "SPD-9 states no level"},
		{"note: cover: Server room: Tight, 1 350 V L-L, 90 % of 1 500 V", "1200 + 6 × 25; category II"},
		{"note: cover: Chiller panel: Tight, 3 500 V L-L, 88 % of 4 000 V", "2300 + 24 m × 50; category III"},
		{"error: earthing: SPD-7 on Winch house: MCOV too low for an unearthed 480 V delta", "MCOV 320 V L-G against 480 V when one line is earthed"},
		{"note: earthing: No bond is shown for the secondary of T1, a separately derived system, and it is said to be solidly grounded", "its secondary is said to be solid, and no board behind it has the bond: it may be in the transformer"},
		{"note: earthing: No bond is shown for the secondary of T2, a separately derived system, and it is said to be solidly grounded", "its secondary is said to be solid, and no board behind it has the bond: it may be in the transformer"},
		{"note: earthing: Mode N-G of SPD-1 on Main switchboard does nothing: neutral and earth are bonded there", "the board has the bond"},
		{"error: fault current: SPD-1 on Main switchboard has an SCCR of 18 kA, and 21.28 kA can flow there", "22 kA at the service less 9 m of three 500 kcmil in steel"},
		{"warning: fault current: Main switchboard is marked with a fault current of 15 kA, and 21.28 kA is computed", "42 % apart: the mark is old"},
		{"error: phases: SPD-5 on Workshop is made for 2 lines, and the bus has 3", "a 208 V two-line device on 208Y/120"},
		{"warning: phases: SPD-7 on Winch house has L-N and N-G, and the bus has no neutral to connect to", "T3 delivers a delta"},
		{"warning: required: Fire pump, a fire pump, has no protector", "NFPA 70 section 695.15, since 2017; what is found may be older than it"},
		{"warning: required: Essential board, a board of an emergency system, has no protector", "NFPA 70 section 700.8, since 2014; what is found may be older than it"},
		{"warning: required: The feeder from Dock pedestal to Winch house in another structure is 121 ft long and has no type 1 or 2 protector at Winch house and Dock pedestal",
			"lightning protection system; 35 + 2 m is over 30 m; SPD-7 would burn there and does not count"},
		{"warning: required: The feeder from Main switchboard to Dock pedestal in another structure is 295 ft long and has no type 1 or 2 protector at Dock pedestal",
			"lightning protection system; 90 m is over 30 m"},
		{"error: voltage: SPD-4 on Aquarium is made for 480Y/277, and the bus has 208Y/120", "it clamps at 1200 V rather than 700 V"},
		{"warning: continuous voltage: SPD-8 on Gate house has little margin for swells in L-N and L-G", "125 V is below 127 V, ANSI C84.1 range B"},
		{"warning: leads: The earth lead of SPD-3 on Fume hoods runs in a steel raceway that is not bonded at both ends", "the sheet says so"},
		{"warning: leads: The leads of SPD-3 on Fume hoods are 26 in long, and its VPR includes 6 in", "20 × 25 = 500 V is over half of 700 V"},
		{"note: leads: The leads of SPD-1 on Main switchboard are 18 in long, and its VPR includes 6 in", "12 × 25 = 300 V is over a tenth of 1200 V"},
		{"note: leads: How the leads of SPD-1 on Main switchboard run over 18 in is not stated: they are taken to run apart", "over a foot, and the sheet does not say"},
		{"note: leads: The leads of SPD-2 on Server room are 12 in long, and its VPR includes 6 in", "6 × 25 = 150 V is over a tenth of 700 V"},
		{"note: leads: The leads of SPD-3 on Fume hoods have 2 sharp bends", "the sheet says so"},
		{"note: leads: How the leads of SPD-3 on Fume hoods run over 26 in is not stated: they are taken to run apart", "over a foot, and the sheet does not say"},
		{"note: leads: The leads of SPD-4 on Aquarium are 12 in long, and its VPR includes 6 in", "150 V is over a tenth of 1200 V"},
		{"note: leads: The leads of SPD-5 on Workshop are 12 in long, and its VPR includes 6 in", "150 V is over a tenth of 700 V"},
		{"note: leads: The leads of SPD-7 on Winch house are 12 in long, and its VPR includes 6 in", "150 V is over a tenth of 1200 V"},
		{"warning: nameplate: SPD-9 states no level in L-N, L-G, N-G and L-L", "only its MCOV was read in the survey"},
		{"note: nameplate: SPD-2 is type 3 and states the currents of a larger one", "20 kA and 200 kA are those of a panel device"},
		{"note: nameplate: SPD-3 states an In of 15 kA, which is none of the usual values", "UL 1449 has 3, 5, 10, 20 kA"},
		{"warning: supply: Cold store (off) is not fed; open on the way: feeder Essential board – Cold store (off)", coldStore},
		{"warning: supply: Spare panel is not fed", "no feeder leads to it"},
		{"note: type and place: SPD-2 on Server room is type 3 and only 10.8 ft of conductor from the overcurrent device of feeder T2 – Server room, less than 30 ft",
			"3 m of feeder and 12 in of lead from the first device behind T2"},
	}
}

func ternQuayUpgraded() []argued {
	const coldStore = "its feeder has an open breaker"
	return []argued{
		{"error: cover: Mass spectrometer: Exceeded, 1 000 V L-N, 125 % of 800 V", "700 + 6 m × 50; category I"},
		{"error: cover: Navigation light: Unreached, no protector holds L-N", "its supply has no protector anywhere"},
		{"error: cover: Room cooling: Exceeded, 1 800 V L-L, 120 % of 1 500 V", "1200 + 12 m × 50; category II"},
		{"error: cover: Cold store (off): Unreached, no protector holds L-G", coldStore},
		{"warning: cover: Weather mast: Unknown, not evaluated: withstand not known", "the sheet does not say"},
		{"warning: fault current: Main switchboard is marked with a fault current of 15 kA, and 21.28 kA is computed", "42 % apart: the mark is old"},
		{"warning: supply: Cold store (off) is not fed; open on the way: feeder Essential board – Cold store (off)", coldStore},
		{"warning: supply: Spare panel is not fed", "no feeder leads to it"},
		{"note: earthing: No bond is shown for the secondary of T1, a separately derived system, and it is said to be solidly grounded", "its secondary is said to be solid, and no board behind it has the bond: it may be in the transformer"},
		{"note: earthing: No bond is shown for the secondary of T2, a separately derived system, and it is said to be solidly grounded", "its secondary is said to be solid, and no board behind it has the bond: it may be in the transformer"},
		{"note: earthing: Mode N-G of SPD-1 on Main switchboard does nothing: neutral and earth are bonded there", "the board has the bond"},
		{"note: earthing: Mode N-G of SPD-12 on Quay light pillar does nothing: neutral and earth are bonded there", "the board has the bond"},
	}
}

func fellFarmAsFound() []argued {
	return []argued{
		{"error: cover: Vacuum pump drive: Exceeded, 2 600 V L-L, 173 % of 1 500 V", "1200 + 4 in × 25 = 1300, doubled within 110 m; category II"},
		{"error: cover: Milk meters: Exceeded, 1 600 V L-N, 200 % of 800 V", "700 + 4 in × 25 = 800, doubled within 117 m; category I"},
		{"error: cover: Milking parlour: Exceeded, 2 600 V L-L, 104 % of 2 500 V", "1300 doubled within 104 m; category III"},
		{"error: cover: Well pump: Exceeded, 2 600 V L-L, 104 % of 2 500 V", "1300 doubled within 64 m; category III"},
		{"error: cover: Pump house: Exceeded, 2 600 V L-L, 104 % of 2 500 V", "1300 doubled within 46 m; category III"},
		{"warning: discharge current: SPD-1 on House panel has an In of 5 kA, and for a service to dwelling units at least 10 kA is required", "NFPA 70:2023 section 230.67(E); what is found may be older than it"},
		{"note: earthing: Mode N-G of SPD-1 on House panel does nothing: neutral and earth are bonded there", "the panel has the bond"},
		{"note: leads: The leads of SPD-1 on House panel are 10 in long, and its VPR includes 6 in", "4 × 25 = 100 V is over a tenth of 700 V"},
	}
}

func fellFarmUpgraded() []argued {
	return []argued{
		{"error: cover: Vacuum pump drive: Exceeded, 1 505 V L-L, 100 % of 1 500 V", "1200 + 6.096 m × 50 = 1504.8; category II"},
		{"error: cover: Milk meters: Exceeded, 1 386 V L-N, 173 % of 800 V", "700 + 13.716 m × 50 = 1385.8; category I"},
		{"note: cover: Well pump: Tight, 2 114 V L-L, 85 % of 2 500 V", "1200 + 18.288 m × 50 = 2114.4; category III"},
		{"note: earthing: Mode N-G of SPD-1 on House panel does nothing: neutral and earth are bonded there", "the panel has the bond"},
	}
}

func saltmarshAsFound() []argued {
	const noneThere = "its supply has no protector anywhere"
	return []argued{
		{"error: cover: Theatre lamp: Exceeded, 2 800 V L-N, 112 % of 2 500 V", "1500 + 0.5 m × 1000 = 2000; 16 m × 50 = 800; category II"},
		{"error: cover: Patient monitors: Exceeded, 3 050 V L-N, 203 % of 1 500 V", "2000 + 21 m × 50; category I"},
		{"error: cover: Scanner: Exceeded, 4 000 V L-N, 160 % of 2 500 V", "2000 doubled within 41 m; category II"},
		{"error: cover: Imaging board: Exceeded, 3 750 V L-N, 150 % of 2 500 V", "2000 + 35 m × 50; category II"},
		{"error: cover: Laundry: Exceeded, 2 700 V L-N, 108 % of 2 500 V", "1500 + 0.8 m × 1000 + 8 m × 50; category II"},
		{"error: cover: Barrier: Unreached, no protector holds L-N", noneThere},
		{"error: cover: Car park pillar: Unreached, no protector holds L-N", noneThere},
		{"warning: risk: Car park supply comes in at Car park pillar without a class I or II protector", "85 / ((0.4 + 0.2 × 0.6) × 0.7) = 234, below 1000"},
		{"warning: earthing: SPD-2 on Outbuilding connects the lines straight to earth on a TT system, with no residual-current device drawn ahead of it",
			"it has L-G, and no switch above has a residual-current device"},
		{"warning: leads: The earth lead of SPD-1 on Main switchboard has 6 mm², and at least 16 mm² of copper is required", "it is class I"},
		{"warning: leads: The leads of SPD-2 on Outbuilding are 800 mm in all, live and earth side; they should preferably be at most 500 mm", "400 + 400 mm"},
		{"warning: type and place: More than 10 m of wiring lies between SPD-1 on Main switchboard, which with leads limits to 2 000 V, and Patient monitors, Scanner and Theatre lamp",
			"1500 + 0.5 m × 1000 = 2000 V is over half of 1500 and of 2500 V; 21, 41 and 16 m; all are critical"},
		{"note: leads: How the leads of SPD-2 on Outbuilding run over 400 mm is not stated: they are taken to run apart", "over a foot, and the sheet does not say"},
	}
}

func saltmarshUpgraded() []argued {
	return []argued{
		{"error: cover: Patient monitors: Exceeded, 2 150 V L-N, 143 % of 1 500 V", "1250 + 0.3 m × 1000 + 12 m × 50; category I"},
		{"warning: type and place: More than 10 m of wiring lies between SPD-2 on Theatre board, which with leads limits to 1 550 V, and Patient monitors",
			"1250 + 0.3 m × 1000 = 1550 V is over half of 1500 V; 12 m; they are critical"},
		{"note: cover: Barrier: Tight, 2 350 V L-N, 94 % of 2 500 V", "1500 + 0.4 m × 1000 + 9 m × 50; category II"},
		{"note: cover: Laundry: Tight, 2 425 V L-G, 97 % of 2 500 V", "1500 + 25 V of arc + 0.5 m × 1000 = 2025, through the gap, whose neutral lead carries nothing of it; 8 m × 50; category II"},
	}
}
