package fault_test

import (
	"bytes"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/analysis/fault"
	"clampline/diagram"
	"clampline/diagram/file"
)

func explainOf(doc *diagram.Document, topology *analysis.Topology, at diagram.End) (analysis.Fault, bool) {
	return fault.Explain(doc, topology, at)
}

func explain(t *testing.T, s *sheet, at diagram.End) analysis.Fault {
	t.Helper()
	f, ok := explainOf(s.doc, analysis.Trace(s.doc), at)
	if !ok {
		t.Fatalf("%v is not explained", at)
	}
	return f
}

// lines writes a working as text, figures to four digits.
func lines(w analysis.Working) []string {
	var out []string
	for _, s := range w {
		line := s.Label + ": "
		if s.Numbers != "" {
			line += s.Numbers + " = "
		}
		if s.Unit == "" {
			line += s.Text
		} else {
			line += analysis.FigureIn(math.Round(s.Result*10)/10, s.Unit)
		}
		out = append(out, strings.ReplaceAll(line, "\u00a0", " "))
	}
	return out
}

// The working of the plan review's example reads as it is worked by hand there.
func TestWorkingByPoints(t *testing.T) {
	s := planReview(t, 3).byPoints()
	f := explain(t, s, diagram.End{Part: "main"})
	want := []string{
		"method: point-to-point method, of magnitudes alone; from utility",
		"impedance of the transformer of utility: 1.8 % × (208 V)² / (100 × 300 kVA) = 2.6 mΩ",
		"feeder utility – main: f = 1.732 × 20 ft × 46 262 A / (22185 × 2 × 208 V) = 0.174; C 22185 of 500 kcmil copper, steel conduit",
		"at its end: 0.852 × 46 262 A = 39 417 A",
		"Z1 at main: 3 mΩ",
		"three-phase fault current: 208 V / (1.732 × 3.047 mΩ) = 39 417 A",
		"line-to-line fault current: 208 V / (2 × 3.047 mΩ) = 34 136 A",
		"Z0 at main: 2.596 mΩ at utility, and 1.803 mΩ of the feeders since = 4.4 mΩ",
		"line-to-neutral fault current: 1.732 × 208 V / 10.492 mΩ = 34 337 A",
		"line-to-earth fault current: 1.732 × 208 V / 10.492 mΩ = 34 337 A",
		"by impedances: 38 180 A",
		"asymmetrical, rms of the first half-cycle: X/R 2.649, 39 417 A = 42 938 A",
		"first peak: X/R 2.649, 39 417 A = 72 772 A",
	}
	if diff := cmp.Diff(want, lines(f.Working)); diff != "" {
		t.Errorf("working (-want +got):\n%s", diff)
	}
}

func TestWorkingByComplexSum(t *testing.T) {
	s := newSheet(t).
		supply("utility", wye480, diagram.SourceData{FaultCurrent: 22e3, XR: 6.6}).
		transformer("T1", delta480, wye208, diagram.TransformerData{Power: 112.5e3, Impedance: 4.5, XR: 2.5}).
		boards("panel").motor("fan", 20e3).
		feed(steel(40, awg(1), 1), "utility > T1:primary").
		feed(steel(10, 500*kcmil, 1), "T1:secondary > panel").
		join("panel > fan")
	f := explain(t, s, diagram.End{Part: "panel"})
	want := []string{
		"method: by impedances; nominal voltage, conductors at 75 °C; from utility",
		"fault current of utility: 22 000 A",
		"impedance of utility: 480 V / (1.732 × 22 000 A), X/R 6.6, or R 1.887 mΩ, X 12.455 mΩ = 12.6 mΩ",
		"feeder utility – T1: 40 ft × (0.16 + j 0.057) Ω per 1000 ft / 1, or R 6.4 mΩ, X 2.28 mΩ = 6.8 mΩ",
		"referred over T1: × (208 V / 480 V)², or R 1.556 mΩ, X 2.767 mΩ = 3.2 mΩ",
		"impedance of the transformer T1: 4.5 % × (208 V)² / (100 × 112.5 kVA), X/R 2.5, or R 6.427 mΩ, X 16.068 mΩ = 17.3 mΩ",
		"feeder T1 – panel: 10 ft × (0.029 + j 0.048) Ω per 1000 ft / 1, or R 0.29 mΩ, X 0.48 mΩ = 0.6 mΩ",
		"Z1 by this way: R 8.273 mΩ, X 19.315 mΩ = 21 mΩ",
	}
	got := lines(f.Working)
	if diff := cmp.Diff(want, got[:len(want)]); diff != "" {
		t.Errorf("working (-want +got):\n%s", diff)
	}
	// with the motor: 1/(1/Z + 1/Zm), 20 kVA at 0.25
	z := 1 / (1/complex(8.2732e-3, 19.3151e-3) + 1/polar(0.25*208*208/20e3, 6))
	near(t, "three-phase", f.ThreePhase, 208/root3/math.Hypot(real(z), imag(z)), 5e-5) // the figures above are rounded
}

// demo reads a demo sheet.
func demo(t *testing.T, name string) *diagram.Document {
	t.Helper()
	data, err := os.ReadFile("../../assets/demo/" + name + ".clampline")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := file.Read(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// Every working of the demo sheets, by both methods: its currents are those of
// Solve, its figures are numbers with units, and each figure read from a table
// names it.
func TestWorkingsOfDemos(t *testing.T) {
	for _, name := range []string{"tern-quay", "fell-farm", "saltmarsh"} {
		for _, method := range []diagram.FaultMethod{diagram.ComplexSum, diagram.PointToPoint} {
			s := &sheet{t, demo(t, name)}
			s.codes(diagram.Codes{Fault: method})
			solved := s.solve()
			if len(solved) < 5 {
				t.Fatalf("%s: %d terminals", name, len(solved))
			}
			for at, want := range solved {
				f := explain(t, s, at)
				checkWorking(t, name, f)
				f.Working = nil
				if diff := cmp.Diff(want, f); diff != "" {
					t.Errorf("%s %v: Explain differs from Solve:\n%s", name, at, diff)
				}
			}
		}
	}
}

func checkWorking(t *testing.T, name string, f analysis.Fault) {
	t.Helper()
	result := func(label string) float64 {
		i := slices.IndexFunc(f.Working, func(s analysis.Step) bool { return s.Label == label })
		if i < 0 {
			return 0
		}
		return f.Working[i].Result
	}
	for i, s := range f.Working {
		if s.Label == "" || s.Unit == "" && s.Text == "" || math.IsNaN(s.Result) || s.Unit != "" && s.Result == 0 {
			t.Errorf("%s %v, step %d: %+v", name, f.At, i, s)
		}
		if s.Unit != "" && s.Unit != "A" && s.Unit != "Ω" && s.Unit != "mΩ" {
			t.Errorf("%s %v, step %d: unit %q", name, f.At, i, s.Unit)
		}
		if s.Source == "" && strings.Contains(s.Numbers, "per 1000 ft") {
			t.Errorf("%s %v, step %d has no source", name, f.At, i)
		}
	}
	if f.Known && (result("three-phase fault current") != f.ThreePhase || result("line-to-line fault current") != f.LineLine) {
		t.Errorf("%s %v: the working ends with %g and %g", name, f.At, result("three-phase fault current"), result("line-to-line fault current"))
	}
}

func TestWorkingNamesAlternativesAndMethod(t *testing.T) {
	f := explain(t, essential(t), diagram.End{Part: "board"})
	want := "else with switch on emergency: set"
	i := slices.IndexFunc(f.Working, func(s analysis.Step) bool { return s.Label == want })
	if i < 0 || math.Abs(f.Working[i].Result-2e3) > 1 {
		t.Errorf("no alternative %q of 2 kA in %v", want, lines(f.Working))
	}
	if !slices.ContainsFunc(f.Working, func(s analysis.Step) bool { return s.Label == "by the point-to-point method" && s.Result > 0 }) {
		t.Error("the other method is not named")
	}
}

func TestWorkingOfWhatIsNotKnown(t *testing.T) {
	s := newSheet(t).supply("utility", wye480, diagram.SourceData{})
	f := explain(t, s, diagram.End{Part: "utility"})
	if f.Known || len(f.Working) != 1 || f.Working[0].Text != f.Why {
		t.Errorf("got %+v, want one step that says what is missing", f)
	}
}

// Behind an infinite bus the first feeder and the first transformer have no
// current to start from.
func TestWorkingBehindInfiniteBus(t *testing.T) {
	s := newSheet(t).byPoints().
		supply("utility", wye480, diagram.SourceData{}).
		transformer("T1", delta480, wye208, diagram.TransformerData{Power: 75e3, Impedance: 4, XR: 2}).
		transformer("T2", delta480, wye208, diagram.TransformerData{Power: 75e3, Impedance: 4, XR: 2}).
		join("utility > T1:primary").feed(steel(50, 500*kcmil, 1), "utility > T2:primary")
	for place, want := range map[string]string{
		"T1:secondary": "behind T1: 100 / 4 × 208.179 A = 5 204 A",
		"T2:secondary": "feeder utility – T2: C 22185 of 500 kcmil copper, steel conduit, n 1, 50 ft = 122 962 A",
	} {
		f := explain(t, s, end(place))
		if got := strings.ReplaceAll(strings.Join(lines(f.Working), "\n"), "\u00a0", " "); !strings.Contains(got, want) {
			t.Errorf("%s: no %q in\n%s", place, want, got)
		}
	}
}

// What a step says is what was added up, where the drawing is odd, too.
func TestWorkingsOfOddDrawings(t *testing.T) {
	corner := highLeg
	corner.Earthing = diagram.Corner
	pair := diagram.System{Wiring: diagram.Single, Voltage: 240, Earthing: diagram.Unearthed, Frequency: 60}
	utility := diagram.SourceData{FaultCurrent: 10e3, XR: 2}
	for _, row := range []struct {
		name, at, label string
		sheet           *sheet
		want            string
	}{
		// One line is earthed, so that V to neutral has no part in it.
		{"a corner-earthed system with a neutral", "utility", "line-to-earth fault current", newSheet(t).supply("utility", corner, utility), ""},
		// 25 kVA of one phase at 5 % and 480 V: 0.05 × 480² / 25 000 / 2 = 230.4 mΩ.
		{"three phases met from behind a transformer of one", "T1:primary", "impedance of the transformer T1",
			newSheet(t).supply("a", pair, utility).supply("b", delta480, utility).boards("m", "n").
				transformer("T1", delta480, pair, diagram.TransformerData{Power: 25e3, Impedance: 5, XR: 1}).
				join("a > T1:secondary", "b > m", "m > n", "n > T1:primary"),
			"5\u00a0% × (480\u00a0V)² / (100 × 25\u00a0kVA × 2), X/R 1, or R 162.917\u00a0mΩ, X 162.917\u00a0mΩ"},
	} {
		var got []string
		for _, step := range explain(t, row.sheet, end(row.at)).Working {
			if step.Label == row.label {
				got = append(got, step.Numbers)
			}
		}
		if !slices.Equal(got, []string{row.want}) {
			t.Errorf("%s: got %q, want %q once", row.name, got, row.want)
		}
	}
}
