package file_test

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
	"clampline/diagram/geom"
)

// strange are members that no version of the program writes, at every level
// of the record, with the odd values that JSON allows.
const strange = `{"\u00fc<&>":"\u2028","board":{"colour":"red"},"list":[1.50,[],{},null,{"b":[1e400],"a":-0}],"system":{"deep":{"er":{"est":true}}},"z":null}`

// strangeAsKept is the same with its texts as the program writes them.
const strangeAsKept = `{"board":{"colour":"red"},"list":[1.50,[],{},null,{"a":-0,"b":[1e400]}],"system":{"deep":{"er":{"est":true}}},"z":null,"ü<&>":"\u2028"}`

func checkRound(t *testing.T, doc *diagram.Document) {
	t.Helper()
	first := write(t, doc)
	again := read(t, first)
	if diff := cmp.Diff(contents(doc), contents(again)); diff != "" {
		t.Fatalf("the document changed on its way (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(first, write(t, again)); diff != "" {
		t.Fatalf("the second file differs (-want +got):\n%s", diff)
	}
	if !strings.HasSuffix(first, "}\n") {
		t.Errorf("got the end %q, want a brace and a new line", first[len(first)-3:])
	}
}

func TestWriteThenReadGivesTheSame(t *testing.T) {
	for seed := range uint64(250) {
		doc := diagramtest.Random(diagramtest.Rand(seed), int(seed%23))
		checkRound(t, doc)
	}
	checkRound(t, diagram.New())
	checkRound(t, diagramtest.Building(300))
}

func TestRecordsAreWrittenInTheOrderOfTheirIDs(t *testing.T) {
	text := write(t, read(t, sheet(`"plans": [{"id": "b-10", "order": 1}, {"id": "b-9", "order": 3}, {"id": "a", "order": 2}],
		"parts": [{"id": "p-10", "kind": "load"}, {"id": "p-2", "kind": "load"}],
		"surges": [{"id": "s-10", "order": 1, `+ringAtEarth+`}, {"id": "s-2", "order": 2, `+ringAtEarth+`}]`)))
	last := 0
	for _, id := range []string{`"a"`, `"b-9"`, `"b-10"`, `"p-2"`, `"p-10"`, `"s-2"`, `"s-10"`} {
		at := strings.Index(text, id)
		if at < last {
			t.Errorf("%s stands at %d, before %d", id, at, last)
		}
		last = at
	}
}

func TestWriteIsTheSameForEveryHistory(t *testing.T) {
	for seed := range uint64(20) {
		rng := diagramtest.Rand(seed)
		doc := diagramtest.Random(rng, 12)
		want := write(t, doc)
		change := diagramtest.Shake(rng, doc, 9)
		doc.Apply(change.Inverse())
		if diff := cmp.Diff(want, write(t, doc)); diff != "" {
			t.Fatalf("seed %d: after a change and its undo (-want +got):\n%s", seed, diff)
		}
	}
}

// everywhere gives every record of a random document the extra members.
func everywhere(t *testing.T, extra string) *diagram.Document {
	t.Helper()
	doc := diagramtest.Random(diagramtest.Rand(11), 20)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		info := doc.Info()
		info.Extra = extra
		tx.SetInfo(info)
		for _, p := range doc.Plans() {
			p.Extra = extra
			tx.SetPlan(p)
		}
		for p := range doc.Parts() {
			p.Extra = extra
			tx.SetPart(p)
		}
		for f := range doc.Feeders() {
			f.Extra = extra
			tx.SetFeeder(f)
		}
		for p := range doc.Protectors() {
			p.Extra = extra
			tx.SetProtector(p)
		}
		for _, s := range doc.Surges() {
			s.Extra = extra
			tx.SetSurge(s)
		}
	})
	return doc
}

func TestUnknownMembersSurvive(t *testing.T) {
	doc := everywhere(t, strangeAsKept)
	checkRound(t, doc)
	want := contents(doc)
	got := contents(read(t, write(t, everywhere(t, strange))))
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("unknown members changed (-want +got):\n%s", diff)
	}
}

// Whatever Read takes, Write can write: the members of the top object may be
// as deep as the file allows.
func TestUnknownMembersSurviveAtEveryDepth(t *testing.T) {
	deep := func(levels int) string { return strings.Repeat("[", levels) + strings.Repeat("]", levels) }
	text := sheet(`"x": ` + deep(63) + `, "info": {"y": ` + deep(62) + `}, "plans": [{"id": "plan-1", "z": ` + deep(61) + `}]`)
	checkRound(t, read(t, text))
}

func TestUnknownMembersSurviveAnEdit(t *testing.T) {
	doc := read(t, sheet(`"colour": "red",
		"info": {"title": "A", "revision": 3},
		"parts": [{"id": "p", "kind": "panel", "board": {"rating": 100, "bus": {"metal": "tin"}}, "serial": 7}]`))
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		part, _ := tx.Part("p")
		part.Board.Rating = 0
		tx.SetPart(part)
		tx.SetInfo(diagram.Info{Extra: doc.Info().Extra})
	})
	const want = `{
  "$schema": "https://clampline.example/schema/v1.json",
  "format": "clampline",
  "version": 1,
  "info": {
    "revision": 3
  },
  "plans": [
    {
      "id": "plan-1"
    }
  ],
  "parts": [
    {
      "id": "p",
      "kind": "panel",
      "at": {"x": 0, "y": 0},
      "board": {
        "bus": {"metal": "tin"}
      },
      "serial": 7
    }
  ],
  "feeders": [],
  "protectors": [],
  "colour": "red"
}
`
	if diff := cmp.Diff(want, write(t, doc)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestExtraNeverOverridesAKnownMember(t *testing.T) {
	for _, extra := range []string{
		`{"board":{"rating":5},"id":"other","name":"X","source":9,"turn":2}`,
		`{"format":"other","info":{"title":"X"},"parts":[],"surges":[],"version":9}`,
		`{"part":"part-1","path":"?","terminals":"?","velocity":1,"wave":"?"}`,
		`{"at":{"x":7},"from":{"part":"x","port":"y"},"leads":{"phase":{"length":2}},"modes":{"L-N":{"connected":true,"level":3}}}`,
	} {
		doc := everywhere(t, extra)
		want := contents(everywhere(t, ""))
		got := contents(read(t, write(t, doc)))
		got.Info.Extra = ""
		for i := range got.Plans {
			got.Plans[i].Extra = ""
		}
		for i := range got.Parts {
			got.Parts[i].Extra = ""
		}
		for i := range got.Feeders {
			got.Feeders[i].Extra = ""
		}
		for i := range got.Protectors {
			got.Protectors[i].Extra = ""
		}
		for i := range got.Surges {
			got.Surges[i].Extra = ""
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("extra %s changed known members (-want +got):\n%s", extra, diff)
		}
	}
}

func TestModesThatAreNotConnectedKeepWhatIsKnown(t *testing.T) {
	modes := func(text string) [diagram.ModeCount]diagram.ModeRating {
		doc := read(t, sheet(`"parts": [{"id": "panel-1", "kind": "panel"}],
			"protectors": [{"id": "p", "plan": "plan-1", "bus": "panel-1", "modes": `+text+`}]`))
		checkRound(t, doc)
		p, _ := doc.Protector("p")
		return p.Modes
	}
	tests := []struct {
		name, text string
		want       diagram.ModeRating
	}{
		{"absent", `{}`, diagram.ModeRating{}},
		{"present", `{"L-N": {}}`, diagram.ModeRating{Connected: true}},
		{"present with numbers", `{"L-N": {"level": 700, "mcov": 150}}`, diagram.ModeRating{Connected: true, Level: 700, MCOV: 150}},
		{"said to be connected", `{"L-N": {"connected": true, "level": 700}}`, diagram.ModeRating{Connected: true, Level: 700}},
		{"with a gap", `{"L-N": {"level": 700, "switching": true}}`, diagram.ModeRating{Connected: true, Level: 700, Switching: true}},
		{"not connected, with a gap", `{"L-N": {"connected": false, "switching": true}}`, diagram.ModeRating{Switching: true}},
		{"said not to be", `{"L-N": {"connected": false, "mcov": 150}}`, diagram.ModeRating{MCOV: 150}},
		{"not connected, with a member unknown", `{"L-N": {"connected": false, "tint": 1}}`, diagram.ModeRating{}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			if got := modes(test.text)[diagram.LineNeutral]; got != test.want {
				t.Errorf("got %+v, want %+v", got, test.want)
			}
		})
	}
}

// A sheet without surge cases is written as before there were any, and members
// kept for other programs do not bring them in.
func TestSheetWithoutSurgesHasNoListOfThem(t *testing.T) {
	doc := read(t, sheet(`"surges": []`))
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.SetInfo(diagram.Info{Extra: `{"surges":[{"id":"x"}]}`})
	})
	if text := write(t, doc); strings.Contains(text, "surge") {
		t.Errorf("got\n%s", text)
	}
}

func TestNumbersAreShortAndExact(t *testing.T) {
	tests := []struct {
		name  string
		value float64
		want  string
	}{
		{"whole", 480, "480"},
		{"a million", 1e6, "1000000"},
		{"inexact", math.Nextafter(0.3, 1), "0.30000000000000004"},
		{"small area", 3.36e-5, "3.36e-5"},
		{"smallest with a point", 0.001, "0.001"},
		{"denormal", 5e-324, "5e-324"},
		{"exponent that ends in nought", 1.5e-10, "1.5e-10"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
				tx.SetPart(diagram.Part{ID: "p", Kind: diagram.Supply, At: geom.Pt(test.value, 0)})
			})
			if text := write(t, doc); !strings.Contains(text, `"x": `+test.want+",") {
				t.Errorf("want %s in\n%s", test.want, text)
			}
			checkRound(t, doc)
		})
	}
}

func TestWriteRefusesExtraThatIsNoObject(t *testing.T) {
	for _, extra := range []string{`[]`, `{"a":1,"a":2}`, `{"a":`, `text`, strings.Repeat(`{"a":`, 62) + "1" + strings.Repeat("}", 62) + "}"} {
		doc := everywhere(t, extra)
		if err := file.Write(&strings.Builder{}, doc); err == nil || !strings.Contains(err.Error(), "extra members") {
			t.Errorf("extra %.20s: got error %v, want one that names the extra members", extra, err)
		}
	}
}

// The plan that was looked at last is kept where it is not the first; one that is
// there no more, or never was, is the first.
func TestShownPlanIsKept(t *testing.T) {
	const plans = `"plans": [{"id": "plan-1", "order": 1}, {"id": "plan-2", "order": 2}]`
	doc := read(t, sheet(plans))
	if text := write(t, doc); strings.Contains(text, "shown") {
		t.Errorf("a sheet on its first plan is written as\n%s", text)
	}
	doc.Show("plan-2")
	if got := read(t, write(t, doc)).Shown(); got != "plan-2" {
		t.Errorf("read again it shows %s", got)
	}
	for _, id := range []string{"plan-1", "plan-9", "", "no id"} {
		doc := read(t, sheet(`"shown": "`+id+`", `+plans))
		if got := doc.Shown(); got != "plan-1" {
			t.Errorf("%q: it shows %s", id, got)
		}
		if text := write(t, doc); strings.Contains(text, "shown") {
			t.Errorf("%q is written again:\n%s", id, text)
		}
	}
	if _, err := file.Read(strings.NewReader(sheet(`"shown": 2, ` + plans))); err == nil || !strings.Contains(err.Error(), "shown") {
		t.Errorf("a number is taken: %v", err)
	}
}
