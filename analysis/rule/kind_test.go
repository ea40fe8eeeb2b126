package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// served is a service: a supply, a board "main" with its disconnect, a panel
// "sub" 20 m on.
func served(t *testing.T) *site {
	return newSite(t, splitOf240).board("main", diagram.BoardData{Service: true}).board("sub", diagram.BoardData{}).
		wire(5, "", "supply > main").wire(20, diagram.Breaker, "main > sub")
}

// derived is a panel "low" behind a transformer "T1", with a switch or none at
// the head of the feeder between them.
func derived(t *testing.T, kind diagram.SwitchKind, data diagram.BoardData) *site {
	return newSite(t, wyeOf480).board("main", diagram.BoardData{Service: true}).stepDown("T1", wyeOf480, wyeOf208).board("low", data).
		wire(5, "", "supply > main").wire(4, diagram.Breaker, "main > T1:primary").wire(3, kind, "T1:secondary > low")
}

// tap is a junction "box" or another part between the supply and the board with
// the service disconnect.
func tap(t *testing.T, part diagram.Kind, head diagram.SwitchKind, data diagram.BoardData) *site {
	return newSite(t, splitOf240).kind(part, "box").board("main", data).wire(5, head, "supply > box").wire(5, "", "box > main")
}

func fused(p *diagram.Protector) { p.Breaker.Rated = 30 }

func TestTypeAndService(t *testing.T) {
	service := diagram.BoardData{Service: true}
	const lineSide = "SPD on box is type 2 and stands ahead of the service disconnect in main"
	const nothing = "SPD on main is type 2, and no overcurrent device stands between it and supply"
	checkRows(t, analysis.SubjectPlace, []siteRow{
		{"type 2 on the service board", served(t).attach("main"), nil},
		{"type 2 downstream", served(t).attach("sub"), nil},
		{"type 1 on the line side", tap(t, diagram.Junction, "", service).attach("box", of(diagram.Type1)), nil},
		{"type 2 on the line side", tap(t, diagram.Junction, "", service).attach("box"), []string{"error: " + lineSide}},
		{"type 2 on the line side, a disconnect without fuse ahead", tap(t, diagram.Junction, diagram.Disconnect, service).attach("box"), []string{"error: " + lineSide}},
		{"type 2 on the line side, a breaker ahead", tap(t, diagram.Junction, diagram.Breaker, service).attach("box"), []string{"error: " + lineSide}},
		{"type 2 on the line side, on a breaker of its own", tap(t, diagram.Junction, "", service).attach("box", fused), []string{"warning: " + lineSide}},
		{"type 2 ahead of it, behind a main breaker of its own board", tap(t, diagram.Panel, "", service).board("box", diagram.BoardData{MainBreaker: 400}).attach("box"), []string{"note: SPD on box has no breaker of its own, and the device ahead of it, that of box, is 400\u00a0A"}},
		{"on a board ahead of the service board", tap(t, diagram.Panel, "", service).attach("box"), []string{"error: " + lineSide}},
		{"on a load beside the service board", newSite(t, splitOf240).kind(diagram.Load, "pump").board("main", service).wire(5, "", "supply > main", "supply > pump").attach("pump"),
			[]string{"error: SPD on pump is type 2, and no overcurrent device stands between it and supply"}},
		{"a load behind a fuse", newSite(t, splitOf240).kind(diagram.Load, "pump").wire(5, diagram.Fuse, "supply > pump").attach("pump"), nil},
		{"a load, and a breaker of its own at the tap", newSite(t, splitOf240).kind(diagram.Load, "pump").wire(5, "", "supply > pump").attach("pump", fused),
			[]string{"warning: SPD on pump is type 2, and no overcurrent device stands between it and supply"}},
		{"a board without main or breaker", newSite(t, splitOf240).board("main", diagram.BoardData{}).wire(5, "", "supply > main").attach("main"), []string{"warning: " + nothing}},
		{"the same with a main", newSite(t, splitOf240).board("main", diagram.BoardData{MainBreaker: 60}).wire(5, "", "supply > main").attach("main"), nil},
		{"the same with a breaker at the head", newSite(t, splitOf240).board("main", diagram.BoardData{}).wire(5, diagram.Breaker, "supply > main").attach("main"), nil},
		{"the same with a breaker of its own", newSite(t, splitOf240).board("main", diagram.BoardData{}).wire(5, "", "supply > main").attach("main", fused), nil},
		{"fed by a generator", newSketchOfGenerator(t).attach("main"), nil},
		{"fed by nothing", newSite(t, splitOf240).board("main", diagram.BoardData{}).attach("main"), nil},
		{"through a transfer switch", newSite(t, splitOf240).kind(diagram.Junction, "box").kind(diagram.TransferSwitch, "ats").board("main", service).
			wire(5, "", "supply > box", "box > ats:normal", "ats:load > main").attach("box"), []string{"error: " + lineSide}},
		{"a transfer switch that stands to its other side", thrown(newSite(t, splitOf240)).kind(diagram.Junction, "box").board("main", service).
			wire(5, "", "supply > box", "box > ats:normal", "ats:load > main", "set > ats:emergency").attach("box"), []string{"error: " + lineSide}},
		{"what feeds itself through a transfer switch", newSite(t, splitOf240).kind(diagram.Junction, "box").kind(diagram.TransferSwitch, "ats").
			wire(5, "", "supply > box", "box > ats:emergency", "ats:load > box").wire(5, diagram.Breaker, "box > ats:normal").attach("box", fused),
			[]string{"warning: SPD on box is type 2, and no overcurrent device stands between it and supply"}},
		{"a service board behind a transformer", newSite(t, wyeOf480).kind(diagram.Junction, "box").stepDown("T1", wyeOf480, wyeOf208).board("barn", service).
			wire(5, diagram.Breaker, "supply > box").wire(5, "", "box > T1:primary", "T1:secondary > barn").attach("box"), nil},
	})
}

// thrown adds a generator, and a transfer switch in its emergency position.
func thrown(s *site) *site {
	s.part(diagram.Part{ID: "set", Kind: diagram.Generator, System: splitOf240})
	s.part(diagram.Part{ID: "ats", Kind: diagram.TransferSwitch, Transfer: diagram.TransferData{Position: diagram.ToEmergency}})
	return s
}

func newSketchOfGenerator(t *testing.T) *site {
	s := newSite(t, splitOf240).board("main", diagram.BoardData{})
	s.part(diagram.Part{ID: "set", Kind: diagram.Generator, System: splitOf240})
	return s.wire(5, "", "set > main")
}

// Ahead of the service disconnect a device that is no type 1 is as dangerous
// whichever practice counts, and however its nameplate is written.
func TestLineSideInBothConventions(t *testing.T) {
	service := diagram.BoardData{Service: true}
	box := func(system diagram.System, head diagram.SwitchKind) *site {
		return newSite(t, system).kind(diagram.Junction, "box").board("main", service).wire(5, head, "supply > box").wire(5, "", "box > main")
	}
	bare := func(kind diagram.Type) string {
		return "error: SPD on box is " + string(kind) + " and stands ahead of the main switch in main, with no overcurrent device between it and supply"
	}
	const two, three = diagram.ClassII, diagram.ClassIII
	const unclassed, unlisted = "note: SPD on box is type 2, and its class is not stated", "note: SPD on box is class II, and its type is not stated"
	const alone = "warning: SPD on box is class III, and no class I or II protector stands upstream of it"
	checkRows(t, analysis.SubjectPlace, []siteRow{
		{"IEC, class I", box(tnsOf400, "").attach("box", of(diagram.ClassI)), nil},
		{"IEC, class II", box(tnsOf400, "").attach("box", of(two)), []string{bare(two)}},
		{"IEC, class I and II", box(tnsOf400, "").attach("box", of(two), impulse(12.5e3), of(two)), nil},
		{"IEC, class II behind a fuse", box(tnsOf400, diagram.Fuse).attach("box", of(two)), nil},
		{"IEC, class II on a fuse of its own", box(tnsOf400, "").attach("box", of(two), fused), nil},
		{"IEC, class II behind the main switch", box(tnsOf400, "").attach("main", of(two)), nil},
		{"IEC, class III", box(tnsOf400, "").attach("box", of(three)), []string{bare(three), alone}},
		{"IEC, type 2", box(tnsOf400, "").attach("box", of(diagram.Type2)), []string{bare(diagram.Type2), unclassed}},
		{"IEC, type 1", box(tnsOf400, "").attach("box", of(diagram.Type1)), []string{"note: SPD on box is type 1, and its class is not stated"}},
		{"NFPA 70, class II", box(splitOf240, "").attach("box", of(two)), []string{"error: SPD on box is class II and stands ahead of the service disconnect in main", unlisted}},
		{"NFPA 70, class II behind it", box(splitOf240, "").attach("main", of(two)), []string{"note: SPD on main is class II, and its type is not stated"}},
	})
	f := box(tnsOf400, "").attach("box", of(two)).one(analysis.SubjectPlace)
	checkTexts(t, f, bare(two)[len("error: "):],
		"when it fails nothing on the sheet clears its short circuit, and it may burst",
		"move it behind the main switch, or give it a fuse or breaker as its instructions ask; where the fuses of the supply stand ahead of it, draw them",
		"IEC 60364-5-53:2001 with amendment 2:2015, clause 534.4.5 (from memory; check your edition)")
}

func TestTypeAtDerivedSystem(t *testing.T) {
	checkRows(t, analysis.SubjectPlace, []siteRow{
		{"a breaker at the secondary", derived(t, diagram.Breaker, diagram.BoardData{}).attach("low"), nil},
		{"a main in the panel", derived(t, "", diagram.BoardData{MainBreaker: 60}).attach("low"), nil},
		{"neither, on its own breaker", derived(t, "", diagram.BoardData{}).attach("low", fused), nil},
		{"neither, type 1", derived(t, "", diagram.BoardData{}).attach("low", of(diagram.Type1)), nil},
		{"between the transformer of the supply and the service board", newSite(t, wyeOf480).stepDown("T1", wyeOf480, wyeOf208).kind(diagram.Junction, "box").board("main", diagram.BoardData{Service: true}).
			wire(5, "", "supply > T1:primary", "T1:secondary > box", "box > main").attach("box"), []string{"error: SPD on box is type 2 and stands ahead of the service disconnect in main"}},
		{"neither", derived(t, "", diagram.BoardData{}).attach("low"), []string{"warning: SPD on low is type 2, and no overcurrent device stands between it and T1"}},
	})
}

func TestTypeInOtherStructure(t *testing.T) {
	barn := func(data diagram.BoardData) *site {
		data.Structure = true
		return served(t).board("barn", data).wire(50, diagram.Breaker, "main > barn")
	}
	checkRows(t, analysis.SubjectPlace, []siteRow{
		{"no device known there", barn(diagram.BoardData{}).attach("barn"), []string{"note: SPD on barn is type 2, and neither a main breaker there nor a breaker of its own is stated"}},
		{"a main there", barn(diagram.BoardData{MainBreaker: 60}).attach("barn"), nil},
		{"a breaker of its own", barn(diagram.BoardData{}).attach("barn", fused), nil},
		{"type 1", barn(diagram.BoardData{}).attach("barn", of(diagram.Type1)), nil},
	})
}

// offGrid is a panel "lights" 3 m below a part of the kind, which nothing feeds, and a
// supply elsewhere.
func offGrid(t *testing.T, kind diagram.Kind) *site {
	s := newSite(t, splitOf240)
	s.part(diagram.Part{ID: "head", Kind: kind, System: splitOf240})
	return s.board("lights", diagram.BoardData{}).wire(3, diagram.Breaker, "head > lights")
}

// 30 ft are 9.144 m: the feeder and the lead together.
func TestTypeThree(t *testing.T) {
	small := func(p *diagram.Protector) { p.Type, p.In = diagram.Type3, 0 }
	lead := func(p *diagram.Protector) { p.Type, p.In, p.Leads.Phase.Length = diagram.Type3, 0, 0.144 }
	away := func(metres float64) *site {
		return served(t).kind(diagram.Load, "desk").wire(metres, diagram.Breaker, "main > desk")
	}
	near := func(distance string) []string {
		return []string{"warning: SPD on desk is type 3 and only " + distance + " of conductor from the service disconnect in main, less than 30\u00a0ft"}
	}
	checkRows(t, analysis.SubjectPlace, []siteRow{
		{"9\u00a0m", away(9).attach("desk", small), near("29.5\u00a0ft")},
		{"9.144\u00a0m", away(9.144).attach("desk", small), nil},
		{"9\u00a0m and the lead", away(9).attach("desk", lead), nil},
		{"a sum that makes 9.144\u00a0m", away(4).board("mid", diagram.BoardData{}).kind(diagram.Load, "far").wire(8.9, diagram.Breaker, "main > mid").wire(0.244, "", "mid > far").attach("far", small), nil},
		{"the length is not known", away(0).attach("desk", small), nil},
		{"tested with its In", away(3).attach("desk", of(diagram.Type3)),
			[]string{"note: SPD on desk is type 3 and only 9.8\u00a0ft of conductor from the service disconnect in main, less than 30\u00a0ft"}},
		{"on the service board itself", served(t).attach("main", small), []string{"warning: SPD on main is type 3 and only 0\u00a0ft of conductor from the service disconnect in main, less than 30\u00a0ft"}},
		{"far down", served(t).attach("sub", small), nil},
		{"near a derived system", derived(t, diagram.Breaker, diagram.BoardData{}).attach("low", small),
			[]string{"warning: SPD on low is type 3 and only 9.8\u00a0ft of conductor from the overcurrent device of feeder T1 – low, less than 30\u00a0ft"}},
		{"near a generator that is the only source, a separately derived system", offGrid(t, diagram.Generator).attach("lights", small),
			[]string{"warning: SPD on lights is type 3 and only 9.8\u00a0ft of conductor from the overcurrent device of feeder head – lights, less than 30\u00a0ft"}},
		{"near a board that nothing is drawn to feed", offGrid(t, diagram.Panel).attach("lights", small), nil},
		{"on a switchboard", newSite(t, wyeOf480).kind(diagram.Switchboard, "gear").wire(50, diagram.Breaker, "supply > gear").attach("gear", small),
			[]string{"warning: SPD on gear is type 3 and stands on a switchboard"}},
	})
	got := results(away(9).attach("desk", small).one(analysis.SubjectPlace).Working)
	want := map[string]float64{"feeders from the service disconnect in main": 9, "conductor to the protector": 9, "least length": 9.144}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("working: -want +got:\n%s", diff)
	}
}

func TestTypeNotNamed(t *testing.T) {
	checkRows(t, analysis.SubjectPlace, []siteRow{
		{"no type", served(t).attach("main", of("")), []string{"note: The type of SPD on main is not stated"}},
		{"a class by NFPA 70", served(t).attach("main", of(diagram.ClassII)), []string{"note: SPD on main is class II, and its type is not stated"}},
		{"no class", clinicSite(t).attach("main", of("")), []string{"note: The class of SPD on main is not stated"}},
		{"a type by IEC", clinicSite(t).attach("main", of(diagram.Type2)), []string{"note: SPD on main is type 2, and its class is not stated"}},
	})
}

func TestTypeTexts(t *testing.T) {
	lineSide := tap(t, diagram.Junction, "", diagram.BoardData{Service: true}).attach("box")
	checkTexts(t, lineSide.one(analysis.SubjectPlace),
		"SPD on box is type 2 and stands ahead of the service disconnect in main",
		"on the line side only a type 1 protector is allowed; a type 2 protector too, as part of listed equipment with an overcurrent device and a disconnect of its own",
		"use a type 1 protector, or move it to the load side of the service disconnect",
		"NFPA 70:2023 section 242.14 (check your edition); NFPA 70 section 230.82 (from memory; check your edition)")
	board := newSite(t, splitOf240).by(diagram.NEC2020).board("main", diagram.BoardData{}).wire(5, "", "supply > main").attach("main")
	checkTexts(t, board.one(analysis.SubjectPlace),
		"SPD on main is type 2, and no overcurrent device stands between it and supply",
		"on the line side of the service disconnect only a type 1 protector is allowed: it needs no overcurrent device ahead",
		"use a type 1 protector, or move it to the load side of the service disconnect; if main has a main breaker, state it",
		"NFPA 70:2020 section 242.14 (check your edition)")
	if got, want := served(t).by(diagram.NEC2017).attach("main", func(p *diagram.Protector) { p.Type, p.In = diagram.Type3, 0 }).one(analysis.SubjectPlace).Source,
		"NFPA 70:2017 section 285.25 (check your edition); UL 1449"; got != want {
		t.Errorf("source: got %s, want %s", got, want)
	}
}
