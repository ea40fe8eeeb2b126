package rule_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
)

// bounded sets what a protector asks of its overcurrent device, A.
func bounded(least, most float64) func(*diagram.Protector) {
	return func(p *diagram.Protector) { p.Breaker.Least, p.Breaker.Most = least, most }
}

// behind is a panel "sub" behind a breaker of that rating.
func behind(t *testing.T, rated float64) *site {
	return newSite(t, wyeOf208).board("main", diagram.BoardData{Service: true, MainBreaker: 800}).board("sub", diagram.BoardData{}).
		wire(5, "", "supply > main").wireRated(30, diagram.Breaker, rated, "main > sub")
}

func TestAheadTooLarge(t *testing.T) {
	three := func(p *diagram.Protector) { p.Type, p.In, p.SCCR = diagram.Type3, 0, 0 }
	const two = "note: SPD on sub has no breaker of its own, and the device ahead of it, that of feeder main – sub, is 400\u00a0A"
	const small = "warning: SPD on sub is type 3, and the smallest overcurrent device ahead of it, that of feeder main – sub, is 400\u00a0A"
	checkRows(t, analysis.SubjectPlace, []siteRow{
		{"type 2 behind 400 A", behind(t, 400).attach("sub"), []string{two}},
		{"type 2 behind 60 A", behind(t, 60).attach("sub"), nil},
		{"type 2 on a breaker of its own", behind(t, 400).attach("sub", fused), nil},
		{"type 2 that says how much it allows", behind(t, 400).attach("sub", bounded(0, 400)), nil},
		{"type 1", behind(t, 400).attach("sub", of(diagram.Type1)), nil},
		{"type 3 behind 400 A", behind(t, 400).attach("sub", three), []string{small}},
		{"type 3 behind 20 A", behind(t, 20).attach("sub", three), nil},
		{"type 3 on the breaker of a branch circuit", behind(t, 400).attach("sub", three, fused), nil},
	})
	checkTexts(t, behind(t, 400).attach("sub").one(analysis.SubjectPlace), two[len("note: "):],
		"a type 2 protector may rely on the device ahead to clear its failure, and how large that may be is not stated",
		"state the largest overcurrent device that its instructions allow, or give it a breaker",
		"NFPA 70:2023 section 242.14 (check your edition); from what size on it is asked is common practice, no source")
	checkTexts(t, behind(t, 400).attach("sub", three).one(analysis.SubjectPlace), small[len("warning: "):],
		"type 3 belongs behind the breaker of a branch circuit: behind a larger one, a fault inside it may not clear before it bursts",
		"enter its breaker, or put it on a branch-circuit breaker",
		"NFPA 70:2023 section 242.16 (check your edition)")
}

const noDevice = "note: No breaker or fuse is stated for SPD on main, and the rating of none ahead of it is known"

func TestAheadUnknown(t *testing.T) {
	rated := func(amperes float64) *site {
		return newSite(t, splitOf240).board("main", diagram.BoardData{Service: true, MainBreaker: amperes}).wire(5, "", "supply > main")
	}
	poles := func(p *diagram.Protector) { p.Breaker.Poles = 2 }
	shared := func(p *diagram.Protector) { p.Breaker.Shared = true }
	checkRows(t, analysis.SubjectBreaker, []siteRow{
		{"neither known", rated(0).attach("main"), []string{noDevice}},
		{"the device ahead known", rated(60).attach("main"), nil},
		{"on a breaker of its own", rated(0).attach("main", fused), nil},
		{"one without a rating", rated(0).attach("main", poles), nil},
		{"on that of another circuit", rated(0).attach("main", shared), []string{"warning: The breaker of SPD on main is shared with other loads"}},
		{"type 1", rated(0).attach("main", of(diagram.Type1)), nil},
		{"type 3", rated(0).attach("main", of(diagram.Type3)), nil},
		{"at a generator", newSketchOfGenerator(t).attach("main"), []string{noDevice}},
		{"none at all, which is told of its place", tap(t, diagram.Junction, "", diagram.BoardData{Service: true}).attach("box"), nil},
		{"by IEC", newSite(t, tnsOf400).board("main", diagram.BoardData{}).wire(5, "", "supply > main").attach("main", of(diagram.ClassII)), nil},
	})
	checkTexts(t, rated(0).attach("main").one(analysis.SubjectBreaker), noDevice[len("note: "):],
		"a type 2 protector may rely on an overcurrent device that its instructions name: without it, it may burst when it fails",
		"see what its instructions ask for; state its breaker, or the largest device ahead that they allow",
		"NFPA 70:2023 section 242.14 (check your edition); UL 1449")
}

func TestAheadTooSmall(t *testing.T) {
	fuse := func(rated float64) *site {
		return newSite(t, tnsOf400).board("main", diagram.BoardData{}).wireRated(5, diagram.Fuse, rated, "supply > main")
	}
	const small = "warning: SPD on main asks for an overcurrent device of at least 250\u00a0A, and the one ahead of it, that of feeder supply – main, is 63\u00a0A"
	asks := bounded(250, 315)
	checkRows(t, analysis.SubjectBreaker, []siteRow{
		{"63 A ahead", fuse(63).attach("main", impulse(25e3), asks), []string{small}},
		{"250 A ahead", fuse(250).attach("main", impulse(25e3), asks), nil},
		{"a device of its own", fuse(63).attach("main", impulse(25e3), asks, func(p *diagram.Protector) { p.Breaker.Rated = 250 }), nil},
		{"nothing asked for", fuse(63).attach("main", impulse(25e3)), nil},
		{"type 1", behind(t, 20).attach("sub", of(diagram.Type1), bounded(30, 0)),
			[]string{"warning: SPD on sub asks for an overcurrent device of at least 30\u00a0A, and the one ahead of it, that of feeder main – sub, is 20\u00a0A"}},
		{"type 2", behind(t, 20).attach("sub", bounded(30, 0)),
			[]string{"warning: SPD on sub asks for an overcurrent device of at least 30\u00a0A, and the one ahead of it, that of feeder main – sub, is 20\u00a0A"}},
	})
	f := fuse(63).attach("main", impulse(25e3), asks).one(analysis.SubjectBreaker)
	checkTexts(t, f, small[len("warning: "):],
		"a surge that the protector can take opens that device, and all that it feeds goes dead",
		"use one that is content with 63\u00a0A, or connect it where 250\u00a0A are ahead",
		"instructions of the protector, from the sheet")
	if diff := cmp.Diff(map[string]float64{"device of feeder supply – main": 63, "at least": 250}, results(f.Working)); diff != "" {
		t.Errorf("working: -want +got:\n%s", diff)
	}
}
