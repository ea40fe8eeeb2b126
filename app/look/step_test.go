package look

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/diagram/unit"
)

func TestSum(t *testing.T) {
	for _, row := range []struct {
		name string
		step analysis.Step
		c    unit.Convention
		want string
	}{
		{"a sum", analysis.Step{Numbers: "700 V + 500 V", Result: 1200, Unit: "V"}, unit.NorthAmerican, "700 V + 500 V = 1 200 V"},
		{"a figure alone", analysis.Step{Result: 700, Unit: "V"}, unit.NorthAmerican, "700 V"},
		{"a figure that says itself", analysis.Step{Numbers: "700 V", Result: 700, Unit: "V"}, unit.NorthAmerican, "700 V"},
		{"a length", analysis.Step{Result: 3.048, Unit: "m"}, unit.NorthAmerican, "10 ft = 3.05 m"},
		{"a length in metres", analysis.Step{Result: 3.048, Unit: "m"}, unit.IEC, "3.05 m"},
		{"per cent", analysis.Step{Result: 31, Unit: "%"}, unit.IEC, "31 %"},
		{"a current", analysis.Step{Numbers: "480 V / 0.02 Ω", Result: 24000, Unit: "A"}, unit.IEC, "480 V / 0.02 Ω = 24 kA"},
		{"a unit of its own", analysis.Step{Result: 5000, Unit: "V/µs"}, unit.IEC, "5 000 V/µs"},
		{"words", analysis.Step{Text: "no protector"}, unit.IEC, "no protector"},
	} {
		if got := strings.ReplaceAll(Sum(row.step, row.c), "\u00a0", " "); got != row.want {
			t.Errorf("%s: got %q, want %q", row.name, got, row.want)
		}
	}
}

func TestStep(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(Theme{})
	step := analysis.Step{Label: "rating L-G", Formula: "u + L·di/dt", Numbers: "700 V + 500 V", Result: 1200, Unit: "V", Source: "from the sheet"}
	for name, row := range map[string]struct {
		c    unit.Convention
		want []string
	}{
		"with everything": {unit.NorthAmerican, []string{"Rating L-G", "700 V + 500 V = 1 200 V", "u + L·di/dt", "Source: from the sheet"}},
		"in IEC":          {unit.IEC, []string{"Rating L-PE", "700 V + 500 V = 1 200 V", "u + L·di/dt", "Source: from the sheet"}},
	} {
		if got := textsOf(Step(step, row.c).(*widget.RichText)); !slices.Equal(got, row.want) {
			t.Errorf("%s: got %q, want %q", name, got, row.want)
		}
	}
	earth := analysis.Step{Label: "earth lead", Text: "an earth bar, 10\u00a0m away", Source: "1 kV per metre"}
	for c, want := range map[unit.Convention][]string{
		unit.NorthAmerican: {"Ground lead", "a ground bar, 10 m (33 ft) away", "Source: 1 kV per meter"},
		unit.IEC:           {"Earth lead", "an earth bar, 10 m away", "Source: 1 kV per metre"},
	} {
		if got := textsOf(Step(earth, c).(*widget.RichText)); !slices.Equal(got, want) {
			t.Errorf("%s: got %q, want %q", c, got, want)
		}
	}
	plain := Step(analysis.Step{Label: "cover", Text: "no protector"}, unit.IEC).(*widget.RichText)
	if got, want := textsOf(plain), []string{"Cover", "no protector"}; !slices.Equal(got, want) {
		t.Errorf("in words alone: got %q, want %q", got, want)
	}
}

func textsOf(text *widget.RichText) []string {
	var out []string
	for _, segment := range text.Segments {
		out = append(out, strings.ReplaceAll(segment.Textual(), "\u00a0", " "))
	}
	return out
}
