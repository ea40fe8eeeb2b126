package main

import (
	"cmp"
	"context"
	"io"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/assess"
	"clampline/analysis/compare"
	"clampline/analysis/spice"
	"clampline/analysis/table"
	"clampline/diagram"
	"clampline/diagram/file"
	"clampline/diagram/unit"
)

// sheetsOf returns the paths of the demos and of the sheets that tests share.
func sheetsOf(t *testing.T) []string {
	t.Helper()
	var out []string
	for _, pattern := range []string{"../../assets/demo/*.clampline", "../../testdata/files/v1/*.clampline"} {
		found, err := filepath.Glob(pattern)
		if err != nil || len(found) == 0 {
			t.Fatalf("no sheets at %s: %v", pattern, err)
		}
		out = append(out, found...)
	}
	return out
}

// namesIn returns every name on a sheet, the longest first.
func namesIn(doc *diagram.Document) []string {
	out := []string{doc.Info().Title}
	for p := range doc.Parts() {
		out = append(out, p.Name)
	}
	for f := range doc.Feeders() {
		out = append(out, f.Name)
	}
	for p := range doc.Protectors() {
		out = append(out, p.Name)
	}
	for _, s := range doc.Surges() {
		out = append(out, s.Name)
	}
	for _, p := range doc.Plans() {
		out = append(out, p.Name)
	}
	out = slices.DeleteFunc(out, func(name string) bool { return name == "" })
	slices.SortFunc(out, func(a, b string) int { return cmp.Compare(len(b), len(a)) })
	return out
}

// Words that do not belong to a convention, and members of JSON that are the same
// in both, so that a program can read them.
var (
	notInUS  = regexp.MustCompile(`(?i)\b(un)?earth(s|ed|ing)?\b|\bstar point|\bprotective (earth|conductor)`)
	notInIEC = regexp.MustCompile(`(?i)\b(un)?ground(s|ed|ing)?\b|\b[ABCLN]-G\b`)
	sameBoth = regexp.MustCompile(`(?m)^\s*"(path|subject|rule|key|reason|mode|between)": .*$`)
)

// Whatever a command prints of a sheet is in the words of the convention: ground and L-G in
// the United States, earth and L-PE by IEC, as text and as JSON. Names stay.
func TestWordsOfEachConvention(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	for _, path := range sheetsOf(t) {
		doc, err := file.Load(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, plan := range doc.Plans() {
			s, err := (&source{plan: string(plan.ID)}).load(context.Background(), path)
			if err != nil {
				t.Fatal(err)
			}
			checkWords(t, path, s, handViews(s))
			cases, err := s.solve(context.Background(), analysis.SurgesOf(doc)) // now the result is that of the transient
			if err != nil {
				t.Fatal(err)
			}
			checkWords(t, path, s, transientViews(cases))
		}
	}
}

// view writes what a command prints of a sheet.
type view func(io.Writer, sheet) error

func checkWords(t *testing.T, path string, s sheet, views map[string]view) {
	t.Helper()
	names := namesIn(s.doc)
	for c, wrong := range map[unit.Convention]*regexp.Regexp{unit.NorthAmerican: notInUS, unit.IEC: notInIEC} {
		s.convention = c
		for name, write := range views {
			var out strings.Builder
			if err := write(&out, s); err != nil || out.Len() == 0 {
				t.Errorf("%s, plan %s, %s: %d bytes, %v", path, s.plan.ID, name, out.Len(), err)
			}
			text := out.String()
			for _, name := range names {
				text = strings.ReplaceAll(text, name, "…")
			}
			text = sameBoth.ReplaceAllString(text, "")
			for _, at := range wrong.FindAllStringIndex(text, 3) {
				t.Errorf("%s, plan %s, %s in %s: %q", path, s.plan.ID, name, c, text[max(0, at[0]-80):min(len(text), at[1]+40)])
			}
		}
	}
}

// handViews are the commands that show the hand rule and the fault currents.
func handViews(s sheet) map[string]view {
	out := resultViews()
	out["fault"] = writeFaults
	out["fault --json"] = func(w io.Writer, s sheet) error { return writeJSON(w, table.Records(faultColumns(s), judged(s))) }
	for name, v := range map[string]*compareView{"compare": {}, "compare --json": {json: true}, "compare --csv": {csv: true}} {
		out[name] = func(w io.Writer, s sheet) error { return v.write(w, s, comparedAlone(s)) }
	}
	bought, err := compare.Buys(context.Background(), s.engine(), compare.Purchase{Document: s.doc, Plan: s.plan.ID, Basis: s.result.Basis, Before: s.result})
	out["buys"] = func(w io.Writer, s sheet) error { return cmp.Or(err, writeBought(w, s, bought)) }
	out["buys --json"] = func(w io.Writer, s sheet) error {
		return writeJSON(w, table.Records(boughtColumns(s, s.result.Basis), bought))
	}
	out["buys --csv"] = func(w io.Writer, s sheet) error { return table.CSV(w, effectColumns(s), effectsOf(bought)) }
	for _, part := range judged(s) {
		out["fault --of "+string(part.ID)] = func(w io.Writer, s sheet) error { return writeFaultWorking(w, s, string(part.ID)) }
	}
	return out
}

// comparedAlone puts the result at hand into a table of one plan.
func comparedAlone(s sheet) *compare.Table {
	return compare.Input{Document: s.doc, Plans: []diagram.ID{s.plan.ID}, Basis: s.result.Basis, Known: map[diagram.ID]*analysis.Result{s.plan.ID: s.result}}.Table()
}

// resultViews are the commands that show a result on either basis.
func resultViews() map[string]view {
	return map[string]view{
		"check":         func(w io.Writer, s sheet) error { return new(checkView).write(w, s) },
		"check --json":  func(w io.Writer, s sheet) error { return (&checkView{json: true}).write(w, s) },
		"levels":        writeTable,
		"levels --json": func(w io.Writer, s sheet) error { return writeJSON(w, table.Records(levelColumns(s), judged(s))) },
	}
}

// transientViews are the commands that show solved surge cases.
func transientViews(cases []assess.Case) map[string]view {
	out := resultViews()
	out["compare"] = func(w io.Writer, s sheet) error { return new(compareView).write(w, s, comparedAlone(s)) }
	out["surge"] = func(w io.Writer, s sheet) error { return surgeTable{w, s}.write(cases, true) }
	out["surge --json"] = func(w io.Writer, s sheet) error { return writeJSON(w, surgesOf(s, cases)) }
	out["crosscheck"] = func(w io.Writer, s sheet) error { return writeChecks(w, s, alike(cases)) }
	out["crosscheck --json"] = func(w io.Writer, s sheet) error { return writeJSON(w, checksOf(s, alike(cases))) }
	return out
}

// alike returns the cases as if the simulator had found the same.
func alike(cases []assess.Case) []checkedCase {
	var out []checkedCase
	for _, met := range cases {
		for _, c := range met.Alone() {
			checked := checkedCase{Case: c}
			for _, m := range spice.Measures(c.Circuit.Network) {
				checked.comparisons = append(checked.comparisons, comparison{m, ours(c, m), ours(c, m)})
			}
			out = append(out, checked)
		}
	}
	return out
}
