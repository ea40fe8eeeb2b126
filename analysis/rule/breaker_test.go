package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/rule"
	"clampline/diagram"
)

// breaker sets the overcurrent device of a protector.
func breaker(b diagram.BreakerData) func(*diagram.Protector) {
	return func(p *diagram.Protector) { p.Breaker = b }
}

// madeFor sets the system of a protector.
func madeFor(s diagram.System) func(*diagram.Protector) {
	return func(p *diagram.Protector) { p.System = s }
}

func TestBreakerPoles(t *testing.T) {
	poles := func(n int) func(*diagram.Protector) { return breaker(diagram.BreakerData{Rated: 30, Poles: n}) }
	three := func() *site {
		return newSite(t, wyeOf480).board("main", diagram.BoardData{Service: true}).wire(5, "", "supply > main")
	}
	delta := diagram.System{Wiring: diagram.Delta, Voltage: 480, Earthing: diagram.Unearthed}
	single := diagram.System{Wiring: diagram.Single, Voltage: 277, Neutral: true, Earthing: diagram.Solid}
	corner := func() *site {
		earthed := delta
		earthed.Earthing = diagram.Corner
		return newSite(t, earthed).board("main", diagram.BoardData{Service: true}).wire(5, "", "supply > main")
	}
	fewer := func(has, lead string) []string {
		return []string{"error: The breaker of SPD on main has " + has + ", and " + lead + " lead to the protector"}
	}
	checkRows(t, analysis.SubjectBreaker, []siteRow{
		{"as many as lines", three().attach("main", poles(3)), nil},
		{"one too few", three().attach("main", poles(2)), fewer("2 poles", "3 lines")},
		{"one alone", three().attach("main", poles(1)), fewer("1 pole", "3 lines")},
		{"the neutral too", three().attach("main", poles(4)), nil},
		{"not known", three().attach("main", poles(0)), nil},
		{"a protector for one line", three().attach("main", madeFor(single), poles(1)), nil},
		{"a split phase", served(t).attach("main", poles(2)), nil},
		{"a split phase, one pole", served(t).attach("main", poles(1)), fewer("1 pole", "2 lines")},
		{"a split phase and its neutral", served(t).attach("main", poles(3)), nil},
		{"more than there are conductors", served(t).attach("main", poles(4)), []string{"warning: The breaker of SPD on main has 4 poles, and the bus has 2 lines"}},
		{"a protector with more lines than the bus", served(t).attach("main", madeFor(wyeOf208), poles(2)), nil},
		{"four on three lines without a neutral", newSite(t, delta).board("main", diagram.BoardData{Service: true}).wire(5, "", "supply > main").attach("main", poles(4)),
			[]string{"warning: The breaker of SPD on main has 4 poles, and the bus has 3 lines"}},
		{"the earthed line of a corner-grounded delta is not switched", corner().attach("main", poles(2)), nil},
		{"nor need it be", corner().attach("main", poles(3)), nil},
		{"one pole on it", corner().attach("main", poles(1)), fewer("1 pole", "3 lines")},
		{"on a load, made for what is not known", three().kind(diagram.Load, "lamp").wire(5, diagram.Breaker, "main > lamp").attach("lamp", poles(1)), nil},
	})
	f := three().by(diagram.NEC2017).attach("main", poles(2)).one(analysis.SubjectBreaker)
	checkTexts(t, f, "The breaker of SPD on main has 2 poles, and 3 lines lead to the protector",
		"a line without a pole is either not protected or cannot be switched off with the others",
		"use a breaker with 3 poles", "NFPA 70:2017 section 285.4 (check your edition)")
	if f.Mend.Label != "set the breaker of SPD to 3 poles" {
		t.Errorf("mend: got %q", f.Mend.Label)
	}
	if left := three().attach("main", poles(2)).mended(analysis.SubjectBreaker); len(left) > 0 {
		t.Errorf("left after the mend: %q", left)
	}
}

func TestBreakerRating(t *testing.T) {
	on := func(ampere, least, most float64) func(*diagram.Protector) {
		return breaker(diagram.BreakerData{Rated: ampere, Least: least, Most: most})
	}
	behind := func(main float64) *site {
		return newSite(t, splitOf240).board("main", diagram.BoardData{Service: true, MainBreaker: main}).wire(5, "", "supply > main")
	}
	sub := func(main, feeder float64) *site {
		return behind(main).board("sub", diagram.BoardData{}).wireRated(20, diagram.Breaker, feeder, "main > sub")
	}
	const none = "SPD on main asks for an overcurrent device of at most 60\u00a0A: none of its own is stated, and "
	checkRows(t, analysis.SubjectBreaker, []siteRow{
		{"within", served(t).attach("main", on(30, 30, 60)), nil},
		{"at most", served(t).attach("main", on(60, 30, 60)), nil},
		{"too large", served(t).attach("main", on(70, 30, 60)), []string{"error: SPD on main is on a breaker of 70\u00a0A and asks for at most 60\u00a0A"}},
		{"too small", served(t).attach("main", on(20, 30, 60)), []string{"warning: SPD on main is on a breaker of 20\u00a0A and asks for at least 30\u00a0A"}},
		{"a control fuse", served(t).attach("main", on(1, 30, 60)), []string{"warning: SPD on main is on a breaker of 1\u00a0A and asks for at least 30\u00a0A"}},
		{"small, and the protector says so", served(t).attach("main", on(15, 15, 0)), nil},
		{"small, and it says nothing", served(t).attach("main", on(20, 0, 0)), []string{"note: SPD on main is on a breaker of 20\u00a0A, and at least 30\u00a0A is usual"}},
		{"30 A, and it says nothing", served(t).attach("main", on(30, 0, 0)), nil},
		{"small by IEC", clinicSite(t).attach("main", of(diagram.ClassII), on(16, 0, 0)), nil},
		{"small at the point of use", served(t).kind(diagram.Load, "desk").wire(20, diagram.Breaker, "main > desk").attach("desk", on(15, 0, 0)), nil},
		{"none, and nothing asked for", served(t).attach("main", on(0, 0, 0)), []string{noDevice}},
		{"none, and a main that is small enough", behind(60).attach("main", on(0, 0, 60)), nil},
		{"none, and a larger main", behind(200).attach("main", on(0, 0, 60)), []string{"warning: " + none + "the device ahead of it, that of main, is 200\u00a0A"}},
		{"none, and nothing known ahead", behind(0).attach("main", on(0, 0, 60)), []string{"note: " + none + "what stands ahead of it is not known"}},
		{"none, and the rule on its type tells", newSite(t, splitOf240).board("main", diagram.BoardData{}).wire(5, "", "supply > main").attach("main", on(0, 0, 60)), nil},
		{"none, and class II on the line side", tap(t, diagram.Junction, "", diagram.BoardData{Service: true}).attach("box", of(diagram.ClassII), on(0, 0, 60)), nil},
		{"none, and its type asks for none", newSite(t, splitOf240).board("main", diagram.BoardData{}).wire(5, "", "supply > main").attach("main", of(diagram.Type1), on(0, 0, 60)),
			[]string{"note: " + none + "what stands ahead of it is not known"}},
		{"the smallest ahead counts", sub(200, 60).attach("sub", on(0, 0, 60)), nil},
		{"the smallest ahead is too large", sub(200, 100).attach("sub", on(0, 0, 60)),
			[]string{"warning: SPD on sub asks for an overcurrent device of at most 60\u00a0A: none of its own is stated, and the device ahead of it, that of feeder main – sub, is 100\u00a0A"}},
	})
	large := served(t).attach("main", on(70, 30, 60))
	f := large.one(analysis.SubjectBreaker)
	checkTexts(t, f, "SPD on main is on a breaker of 70\u00a0A and asks for at most 60\u00a0A",
		"a fault inside the protector may not be cleared before it bursts", "use a breaker of 60\u00a0A", "instructions of the protector, from the sheet")
	if diff := cmp.Diff(map[string]float64{"breaker of SPD": 70, "at most": 60}, results(f.Working)); diff != "" {
		t.Errorf("working: -want +got:\n%s", diff)
	}
	if left := large.mended(analysis.SubjectBreaker); len(left) > 0 {
		t.Errorf("left after the mend: %q", left)
	}
	if left := served(t).attach("main", on(20, 30, 60)).mended(analysis.SubjectBreaker); len(left) > 0 {
		t.Errorf("left after the mend: %q", left)
	}
	small := served(t).attach("main", on(20, 0, 0)).one(analysis.SubjectBreaker)
	if want := "UFC 3-520-01 (2002) 11-3: a 30 A breaker tripped above about 25 kA 8/20, one of 60 A stood about 65 kA"; small.Source != want {
		t.Errorf("source: got %s, want %s", small.Source, want)
	}
}

func TestBreakerShared(t *testing.T) {
	shared := breaker(diagram.BreakerData{Rated: 30, Shared: true})
	checkRows(t, analysis.SubjectBreaker, []siteRow{
		{"shared", served(t).attach("main", shared), []string{"warning: The breaker of SPD on main is shared with other loads"}},
		{"its own", served(t).attach("main", fused), nil},
		{"at the point of use", served(t).attach("sub", of(diagram.Type3), shared), nil},
		{"class III", clinicSite(t).attach("ward", of(diagram.ClassIII), shared), nil},
		{"on a load", served(t).kind(diagram.Load, "desk").wire(20, diagram.Breaker, "main > desk").attach("desk", shared), nil},
	})
}

func TestBreakerSpaces(t *testing.T) {
	room := func(spaces, free int, positions string) *site {
		s := newSite(t, splitOf240).board("main", diagram.BoardData{Service: true, Spaces: spaces, FreeSpaces: free, FreePositions: positions}).wire(5, "", "supply > main")
		s.edit(func(tx *diagram.Tx) { tx.SetPlan(diagram.Plan{ID: "plan-2", Name: "New", Order: 2}) })
		return s
	}
	second := func(s *site) *site { s.plan = "plan-2"; return s }
	two := breaker(diagram.BreakerData{Rated: 30, Poles: 2})
	byLines := breaker(diagram.BreakerData{Rated: 30})
	none := breaker(diagram.BreakerData{})
	shared := breaker(diagram.BreakerData{Rated: 30, Poles: 2, Shared: true})
	needs := func(needed, free string) []string {
		return []string{"warning: The breaker of SPD on main finds no room: " + needed + " spaces more needed there, " + free + " free"}
	}
	checkRows(t, analysis.SubjectBreaker, []siteRow{
		{"enough", second(room(20, 2, "")).attach("main", two), nil},
		{"one too few", second(room(20, 1, "")).attach("main", two), needs("2", "1")},
		{"full", second(room(20, 0, "")).attach("main", two), needs("2", "0")},
		{"nothing known of the board", second(room(0, 0, "")).attach("main", two), nil},
		{"poles not known: by the lines", second(room(20, 1, "")).attach("main", byLines), needs("2", "1")},
		{"no breaker, no space", second(room(20, 0, "")).attach("main", none), []string{noDevice}},
		{"on a breaker that is there", second(room(20, 0, "")).attach("main", shared, of(diagram.Type3), carries(0)), nil},
		{"the second finds no room", second(room(20, 2, "")).attach("main", two).attach("main", two), needs("4", "2")},
		{"nor does the third, which is not told again", second(room(20, 2, "")).attach("main", two).attach("main", two).attach("main", two), needs("4", "2")},
		{"the first plan has its places", room(20, 0, "").attach("main", two), nil},
		{"kept in the second plan", second(room(20, 0, "").attach("main", two)).attach("main", two), nil},
		{"one more than in the first plan", second(room(20, 1, "").attach("main", two)).attach("main", two).attach("main", two), needs("2", "1")},
		{"one more, and room for it", second(room(20, 2, "").attach("main", two)).attach("main", two).attach("main", two), nil},
	})
	for free, want := range map[int]int{1: 1, 2: 0} {
		got := 0
		for _, f := range rule.CheckAt(room(20, free, "").attach("main", two).input(), "main")(plain("", "main", two)) {
			if f.Subject == analysis.SubjectBreaker {
				got++
			}
		}
		if got != want {
			t.Errorf("one more beside that of the first plan, %d free: got %d findings, want %d", free, got, want)
		}
	}
	f := second(room(20, 1, "18, 20").attach("main", two)).attach("main", two).attach("main", two).one(analysis.SubjectBreaker)
	checkTexts(t, f, "The breaker of SPD on main finds no room: 2 spaces more needed there, 1 free",
		"the protectors of this plan need more spaces on the board than are free, those of the first plan counted as placed",
		"free some, or use a protector that needs no breaker or connects to lugs; free are 18, 20", "")
	want := map[string]float64{"spaces for the breakers of this plan": 4, "taken by protectors of the first plan": 2, "spaces still needed": 2, "free spaces": 1}
	if diff := cmp.Diff(want, results(f.Working)); diff != "" {
		t.Errorf("working: -want +got:\n%s", diff)
	}
}
