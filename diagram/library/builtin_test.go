package library_test

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"clampline/assets"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/library"
)

// eachKind runs the test for every protector that comes with the program.
func eachKind(t *testing.T, test func(t *testing.T, p diagram.Protector)) {
	t.Helper()
	all := library.BuiltIn()
	if len(all) < 25 {
		t.Fatalf("got %d kinds, want at least 25", len(all))
	}
	for _, e := range all {
		t.Run(string(e.Protector.ID), func(t *testing.T) { test(t, e.Protector) })
	}
}

func TestBuiltInFileFitsTheSchemaAndIsWrittenAsTheProgramWouldWriteIt(t *testing.T) {
	unmarshal := func(text []byte) any {
		value, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		return value
	}
	const address = "https://clampline.example/schema/library-v1.json"
	compiler := jsonschema.NewCompiler()
	if err := compiler.AddResource(address, unmarshal(assets.LibrarySchema())); err != nil {
		t.Fatal(err)
	}
	schema, err := compiler.Compile(address)
	if err != nil {
		t.Fatal(err)
	}
	if err := schema.Validate(unmarshal(assets.Protectors())); err != nil {
		t.Error(err)
	}
	var out bytes.Buffer
	if err := library.Write(&out, library.BuiltIn()); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(assets.Protectors()), out.String()); diff != "" {
		t.Errorf("(-file +written):\n%s", diff)
	}
}

func TestBuiltInEntriesAreOnesThatADocumentTakes(t *testing.T) {
	seen := map[string]diagram.ID{}
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
		for _, e := range library.BuiltIn() {
			for _, key := range []string{"id " + string(e.Protector.ID), "name " + e.Protector.Name} {
				if other, taken := seen[key]; taken {
					t.Errorf("%s and %s have the same %s", other, e.Protector.ID, key)
				}
				seen[key] = e.Protector.ID
			}
			if e.Own {
				t.Errorf("%s: got one of the user's", e.Protector.ID)
			}
			tx.SetProtector(library.Place(e, diagram.FirstPlan, "panel-1", tx.NewProtectorID()))
		}
	})
	if _, _, got := doc.Count(); got != len(library.BuiltIn()) {
		t.Errorf("got %d protectors, want %d", got, len(library.BuiltIn()))
	}
}

// usual are the values that the standards name: VPR by UL 1449 table 79.1 (from
// memory), the others as handbooks state them.
func usual() map[string][]float64 {
	return map[string][]float64{
		"VPR":   {330, 400, 500, 600, 700, 800, 900, 1000, 1200, 1500, 1800, 2000, 2500, 3000, 4000, 5000, 6000},
		"UL In": {3e3, 5e3, 10e3, 20e3},
		"In":    {50, 100, 250, 500, 1e3, 1.5e3, 2e3, 2.5e3, 3e3, 5e3, 10e3, 15e3, 20e3},
		"Iimp":  {0, 1e3, 2e3, 5e3, 10e3, 12.5e3, 20e3, 25e3},
	}
}

func TestBuiltInRatingsAreAmongThoseOfTheStandards(t *testing.T) {
	steps := usual()
	eachKind(t, func(t *testing.T, p diagram.Protector) {
		check := func(name string, v float64) {
			if !slices.Contains(steps[name], v) {
				t.Errorf("%s %g is none of %v", name, v, steps[name])
			}
		}
		iec := p.System.Earthing.IsIEC()
		wantRating := map[bool]diagram.Rating{true: diagram.Up, false: diagram.VPR}[iec]
		if p.Rating != wantRating || strings.HasPrefix(string(p.Type), "class") != iec {
			t.Errorf("got %s with %s on %s", p.Type, p.Rating, p.System)
		}
		for _, mode := range diagram.Modes() {
			if r := p.Modes[mode]; r.Connected && !iec {
				check("VPR", r.Level)
			}
		}
		switch {
		case iec:
			check("In", p.In)
			check("Iimp", p.Iimp)
		case p.In != 0 || p.Type != diagram.Type3: // a Type 3 need not state one
			check("UL In", p.In)
		}
		if p.Type == diagram.Type1 && p.In < 10e3 {
			t.Errorf("Type 1 with In %g A, want at least 10 kA", p.In)
		}
		if (p.Iimp > 0) != (p.Type == diagram.ClassI) {
			t.Errorf("%s with Iimp %g A", p.Type, p.Iimp)
		}
	})
}

// The least continuous voltage: that across the mode and, by IEC 60364-5-53
// clause 534, 1.1 times the voltage to neutral (on IT between lines), but from
// neutral to earth that voltage alone.
func TestBuiltInKindsStandTheVoltageOfTheirSystem(t *testing.T) {
	eachKind(t, func(t *testing.T, p diagram.Protector) {
		connected := 0
		for _, mode := range diagram.Modes() {
			r := p.Modes[mode]
			if !r.Connected {
				continue
			}
			connected++
			least := p.System.ModeVoltage(mode)
			if p.Rating == diagram.Up && mode != diagram.NeutralEarth {
				least *= 1.1
			}
			if p.Rating == diagram.Up && mode == diagram.NeutralEarth {
				least = p.System.LineToNeutral()
			}
			if r.MCOV < least || r.Level <= r.MCOV*math.Sqrt2 {
				t.Errorf("%s: %g V continuous and %g V let through, want at least %g V continuous", mode, r.MCOV, r.Level, least)
			}
			if !p.System.HasMode(mode) {
				t.Errorf("%s: %s has no such mode", mode, p.System)
			}
		}
		if connected == 0 {
			t.Error("it has no mode")
		}
	})
}

func TestBuiltInKindsAreWhole(t *testing.T) {
	eachKind(t, func(t *testing.T, p diagram.Protector) {
		if !strings.Contains(p.Note, "no listing") {
			t.Error("the note does not say that the figures are no listing")
		}
		neutral := p.Modes[diagram.LineNeutral].Connected || p.Modes[diagram.NeutralEarth].Connected
		if l := p.Leads; l.Phase.Length == 0 || l.Earth.Length == 0 || (l.Neutral.Length > 0) != neutral {
			t.Errorf("got leads %+v", l)
		}
		if b := p.Breaker; b.Poles != p.System.Lines() || b.Rated != 0 && (b.Rated < b.Least || b.Rated > b.Most) {
			t.Errorf("got breaker %+v for %d lines", b, p.System.Lines())
		}
		if p.SCCR == 0 && p.Type != diagram.Type3 { // receptacles and cords need not state one
			t.Error("it states no SCCR")
		}
		if p.Name != strings.TrimSpace(p.Name) || !strings.Contains(strings.ToLower(p.Name), string(p.Type[:4])) || !strings.HasSuffix(p.Name, levelText(p)) {
			t.Errorf("got name %q, want the type first and %q last", p.Name, levelText(p))
		}
	})
}

// levelText is the highest level against neutral and earth as a name states it.
func levelText(p diagram.Protector) string {
	highest := 0.0
	for _, mode := range []diagram.Mode{diagram.LineNeutral, diagram.LineEarth, diagram.NeutralEarth} {
		highest = max(highest, p.Modes[mode].Level)
	}
	if p.Rating == diagram.Up {
		return fmt.Sprintf("Up %g kV", highest/1000)
	}
	return fmt.Sprintf("VPR %g V", highest)
}

// Each system to pick from has a kind made for it, apart from TN-C-S, which is
// TN-C at its origin and TN-S behind it.
func TestEverySystemHasAKind(t *testing.T) {
	for _, preset := range diagram.Presets() {
		made := func(e library.Entry) bool { return e.Protector.System == preset.System }
		if preset.System.Earthing != diagram.TNCS && !slices.ContainsFunc(library.BuiltIn(), made) {
			t.Errorf("no kind is made for %s", preset.Name)
		}
	}
}

func BenchmarkBuiltIn(b *testing.B) {
	for b.Loop() {
		library.BuiltIn()
	}
}
