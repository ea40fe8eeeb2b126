package rule

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/draw/drawtest"
	"clampline/diagram/library"
	"clampline/diagram/unit"
)

// fittings returns what the rules say of each protector on the system, a line
// each: "fits", or the findings.
func fittings(t *testing.T, system diagram.System, protectors []diagram.Protector) string {
	t.Helper()
	var out strings.Builder
	for _, p := range protectors {
		found := Fits(p, system, diagram.Codes{})
		CheckSentences(t, append(Plausible(p), found...))
		fmt.Fprintf(&out, "  %s:", p.ID)
		if len(found) == 0 {
			out.WriteString(" fits")
		}
		out.WriteString("\n")
		for _, f := range found {
			fmt.Fprintf(&out, "    %s, %s: %s\n", f.Severity, f.Subject, f.What)
		}
	}
	return out.String()
}

// everyProtector returns what comes with the program, each by its id.
func everyProtector(t *testing.T) []diagram.Protector {
	t.Helper()
	var out []diagram.Protector
	for _, entry := range library.BuiltIn() {
		p := entry.Protector
		p.Name = "P"
		out = append(out, p)
	}
	if len(out) == 0 {
		t.Fatal("no protector comes with the program")
	}
	return out
}

// TestMatrix sets every system beside every protector of the library. The file
// was read line by line as an electrician would.
func TestMatrix(t *testing.T) {
	var out strings.Builder
	protectors := everyProtector(t)
	for _, preset := range diagram.Presets() {
		out.WriteString(preset.Name + "\n" + fittings(t, preset.System, protectors))
	}
	for c, wrong := range map[unit.Convention]string{unit.NorthAmerican: `(?i)\b(un)?earth(ed|ing)?\b`, unit.IEC: `(?i)\b(un)?ground(ed|ing)?\b|-G\b`} {
		words := unit.Words(strings.ReplaceAll(out.String(), ", earthing:", ":"), c) // the subject is one for both
		if at := regexp.MustCompile(wrong).FindStringIndex(words); at != nil {
			t.Errorf("%s: %q", c, words[max(0, at[0]-60):at[1]])
		}
	}
	drawtest.Text(t, "matrix.txt", out.String())
}

// What is usual for a system has nothing wrong on it, by the rules of either
// side of the ocean, and nothing doubtful on its nameplate.
func TestUsualProtectorsFit(t *testing.T) {
	for _, preset := range diagram.Presets() {
		p := analysis.TypicalProtector(preset.System)
		for _, practice := range []diagram.Practice{"", diagram.NECPractice, diagram.IECPractice} {
			if practice == diagram.IECPractice && !preset.System.Earthing.IsIEC() {
				continue // a VPR has no Uc by its table
			}
			for _, f := range append(Fits(p, preset.System, diagram.Codes{Practice: practice}), Plausible(p)...) {
				t.Errorf("%s, practice %q: got %s, %s: %s; want nothing", preset.Name, practice, f.Severity, f.Subject, f.What)
			}
		}
	}
}

// The nameplates that come with the program have nothing wrong, and each fits
// the system that it is made for.
func TestLibraryIsPlausible(t *testing.T) {
	for _, p := range everyProtector(t) {
		for _, f := range append(Plausible(p), Fits(p, p.System, diagram.Codes{})...) {
			t.Errorf("%s: got %s, %s: %s; want nothing", p.ID, f.Severity, f.Subject, f.What)
		}
	}
}
