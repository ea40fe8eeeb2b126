package analysis_test

import (
	"math"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
)

// The formula CRL = f_env / (L_P N_g), its L_P and the length taken where
// nothing is known are those of a network operator's guide to IEC 60364-4-44
// clause 443. The first two rows are recalled of the standard's own annex, the
// others are worked out by hand; a tenth of a per cent is their rounding.
func TestRiskLevel(t *testing.T) {
	km := func(place diagram.Surroundings, ng, lowOverhead, lowCable, highOverhead, highCable float64) diagram.Exposure {
		return diagram.Exposure{
			Surroundings: place, FlashDensity: ng,
			LowOverhead: lowOverhead * 1000, LowCable: lowCable * 1000, HighOverhead: highOverhead * 1000, HighCable: highCable * 1000,
		}
	}
	tests := []struct {
		name      string
		exposure  diagram.Exposure
		path, crl float64
	}{
		{"rural, overhead", km(diagram.Rural, 1, 0.4, 0, 0.6, 0), 1.04, 81.7308},
		{"rural, overhead, few flashes", km(diagram.Rural, 0.1, 0.4, 0, 0.6, 0), 1.04, 817.308},
		{"rural, cable", km(diagram.Rural, 1, 0, 0.4, 0, 0.6), 0.52, 163.462},
		{"suburban counts as rural", km(diagram.Suburban, 1, 0, 0.4, 0, 0.6), 0.52, 163.462},
		{"urban, cable", km(diagram.Urban, 1, 0, 0.4, 0, 0.6), 0.52, 1634.62},
		{"urban, overhead", km(diagram.Urban, 1, 0.4, 0, 0.6, 0), 1.04, 817.308},
		{"urban, 1 km overhead", km(diagram.Urban, 0.5, 1, 0, 0, 0), 2, 850},
		{"urban, 1 km cable", km(diagram.Urban, 0.7, 0, 1, 0, 0), 1, 1214.29},
		{"nothing known of the lines", km(diagram.Rural, 0.1, 0, 0, 0, 0), 2, 425},
		{"nothing known of the lines, urban", km(diagram.Urban, 0.1, 0, 0, 0, 0), 2, 4250},
		{"all four", km(diagram.Urban, 0.5, 0.1, 0.4, 0.2, 0.3), 0.74, 2297.3},
		{"underground, few flashes", km(diagram.Rural, 0.05, 0, 1, 0, 0), 1, 1700},
		{"short to a device", ending(km(diagram.Rural, 1, 0, 0.1, 0, 0)), 0.1, 850},
		{"short, and what follows is not known", km(diagram.Rural, 1, 0, 0.1, 0, 0), 1.9, 44.7368},
		{"overhead in part", km(diagram.Urban, 1, 0.2, 0, 0.3, 0), 1.52, 559.2105},
		{"a device, and no line stated", ending(km(diagram.Rural, 0.1, 0, 0, 0, 0)), 2, 425},
		{"a device beyond 1 km", ending(km(diagram.Rural, 1, 0.4, 0, 3, 2)), 1.04, 81.7308},
		{"surroundings not known", km("", 1, 0.4, 0, 0.6, 0), 1.04, 81.7308},
		{"beyond 1 km nothing counts", km(diagram.Rural, 1, 0.4, 0, 3, 2), 1.04, 81.7308},
		{"low-voltage overhead counts first", km(diagram.Rural, 1, 0.8, 0.5, 1, 1), 1.8, 47.2222},
	}
	for _, test := range tests {
		got, working, known := analysis.RiskLevel(test.exposure)
		if !known || math.Abs(got-test.crl) > 1e-3*test.crl {
			t.Errorf("%s: got %g, %v; want %g", test.name, got, known, test.crl)
		}
		path := stepOf(t, working, "risk length L_P")
		if math.Abs(path.Result-test.path) > 1e-12 || path.Unit != "km" {
			t.Errorf("%s: L_P is %g %s, want %g km", test.name, path.Result, path.Unit, test.path)
		}
		if level := stepOf(t, working, "calculated risk level"); level.Result != got {
			t.Errorf("%s: the working says %g, the result is %g", test.name, level.Result, got)
		}
	}
}

// ending says that an overvoltage device stands at the end of the lines.
func ending(e diagram.Exposure) diagram.Exposure {
	e.LinesEnd = true
	return e
}

// What is not stated of a kilometre is told.
func TestRiskLengthNotStated(t *testing.T) {
	_, working, _ := analysis.RiskLevel(diagram.Exposure{Surroundings: diagram.Rural, FlashDensity: 1, LowOverhead: 300, LowCable: 123.7})
	step := stepOf(t, working, "line that is not stated")
	if got, want := step.Result, 0.5763; math.Abs(got-want) > 1e-9 || step.Text != "taken as low-voltage overhead line" {
		t.Errorf("got %g km, %q; want %g km", got, step.Text, want)
	}
	if got := stepOf(t, working, "low-voltage cable L_PCL").Source; got != "from the sheet" {
		t.Errorf("the cable is %q, and all of it counts", got)
	}
	if got, want := stepOf(t, working, "risk length L_P").Result, 2*0.8763+0.1237; math.Abs(got-want) > 1e-9 {
		t.Errorf("L_P: got %g km, want %g km", got, want)
	}
}

// Of a line that goes beyond the nearest kilometre it is told that a part counts.
func TestRiskLengthBeyondAKilometre(t *testing.T) {
	_, working, _ := analysis.RiskLevel(diagram.Exposure{Surroundings: diagram.Rural, FlashDensity: 1, LowOverhead: 400, HighOverhead: 700})
	for label, want := range map[string]string{
		"low-voltage overhead line L_PAL": "from the sheet", "high-voltage overhead line L_PAH": "from the sheet, of which the nearest 1 km of line counts",
	} {
		if got := stepOf(t, working, label).Source; got != want {
			t.Errorf("%s: got %q, want %q", label, got, want)
		}
	}
}

func stepOf(t *testing.T, working analysis.Working, label string) analysis.Step {
	t.Helper()
	for _, step := range working {
		if step.Label == label {
			return step
		}
	}
	t.Fatalf("the working has no step %q", label)
	return analysis.Step{}
}

func TestRiskLevelNotKnown(t *testing.T) {
	for _, ng := range []float64{0, -1, math.NaN()} {
		crl, working, known := analysis.RiskLevel(diagram.Exposure{Surroundings: diagram.Rural, FlashDensity: ng})
		if known || crl != 0 {
			t.Errorf("N_g %g: got %g, %v; want nothing", ng, crl, known)
		}
		if last := working[len(working)-1].Text; last != "their density is not known: there is no risk level" {
			t.Errorf("N_g %g: the working ends with %q", ng, last)
		}
	}
}

// A figure that is not an ordinary number must not get into a working.
func TestRiskLevelIsANumber(t *testing.T) {
	tiny := math.SmallestNonzeroFloat64
	for _, e := range []diagram.Exposure{
		{FlashDensity: tiny}, {FlashDensity: tiny, HighCable: tiny}, {FlashDensity: 1, HighCable: tiny}, {FlashDensity: math.MaxFloat64},
	} {
		if crl, _, known := analysis.RiskLevel(e); !known || math.IsInf(crl, 0) || math.IsNaN(crl) || crl < 0 {
			t.Errorf("%+v: got %g, %v", e, crl, known)
		}
	}
}

func TestRiskWorking(t *testing.T) {
	_, working, _ := analysis.RiskLevel(diagram.Exposure{
		Surroundings: diagram.Rural, FlashDensity: 1, LowOverhead: 400, HighOverhead: 900,
	})
	var lines []string
	for _, step := range working {
		line := step.Label + ": " + step.Numbers
		if step.Unit != "" {
			line += " " + analysis.FigureIn(step.Result, step.Unit)
		}
		lines = append(lines, strings.TrimSpace(strings.ReplaceAll(line+" "+step.Text, "\u00a0", " ")))
	}
	want := []string{
		"surroundings:  rural, F = 1: 85",
		"low-voltage overhead line L_PAL:  0.4 km",
		"low-voltage cable L_PCL:  0 km",
		"high-voltage overhead line L_PAH:  0.6 km",
		"high-voltage cable L_PCH:  0 km",
		"risk length L_P: 2 × 0.4 km + 0 km + 0.4 × 0.6 km + 0.2 × 0 km 1.04 km",
		"lightning flashes N_g:  1 per km² and year",
		"calculated risk level:  85 / (1.04 × 1) = 81.731",
		"limit:  protection is needed below 1 000",
	}
	if got := strings.Join(lines, "\n"); got != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", got, strings.Join(want, "\n"))
	}
}
