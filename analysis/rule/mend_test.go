package rule_test

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"clampline/analysis"
	"clampline/analysis/fault"
	"clampline/analysis/rule"
	"clampline/assets"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
)

// mendable are the documents of the demos, and random ones; some of these with
// systems that the library knows, lest nothing fits.
func mendable(t *testing.T) map[string]*diagram.Document {
	t.Helper()
	out := map[string]*diagram.Document{}
	for _, demo := range assets.Demos() {
		doc, err := file.Read(strings.NewReader(demo.Text))
		if err != nil {
			t.Fatal(err)
		}
		out[demo.Title] = doc
	}
	for seed := range uint64(40) {
		rng := diagramtest.Rand(seed)
		doc := diagramtest.Random(rng, 4+int(seed%16))
		diagramtest.Unlock(t, doc)
		if seed%2 == 0 {
			presets := diagram.Presets()
			if _, err := doc.Edit(func(tx *diagram.Tx) error {
				for part := range doc.Parts() {
					if part.Kind == diagram.Supply || part.Kind == diagram.Generator {
						part.System = presets[rng.IntN(len(presets))].System
						tx.SetPart(part)
					} else if part.Kind.IsBoard() {
						part.System = diagram.System{}
						tx.SetPart(part)
					}
				}
				return nil
			}); err != nil {
				t.Fatal(err)
			}
		}
		out[fmt.Sprintf("seed %d", seed)] = doc
	}
	server := diagram.Part{ID: "server", Kind: diagram.Load, Load: diagram.LoadData{Terminals: diagram.FilteredTerminals}}
	server.Withstand = diagram.Withstand{Kind: diagram.ByMultiple, Multiple: 8}
	out["a multiple beyond the curve"] = newSketch(t).supply(wyeOf480, diagram.Exposure{}).part(server).feed(5, "supply > server").doc
	behindLightning := clinicSite(t).exposed(level(diagram.LightningIII)).attach("main", of(diagram.ClassII))
	out["class II where lightning comes in"] = behindLightning.doc
	return out
}

func findingsOn(doc *diagram.Document, plan diagram.ID) []analysis.Finding {
	topology := analysis.Trace(doc)
	out := diagramtest.Must(rule.Check(context.Background(), rule.Input{Document: doc, Plan: plan, Topology: topology, Faults: diagramtest.Must(fault.Solve(context.Background(), doc, topology))}))
	return append(out, topology.Findings...)
}

// A mend takes its finding away, by whichever of its choices. What it alters is
// the installation: the nameplate of a protector only where the finding is about
// that, or where another protector comes.
func TestMendsTakeTheirFindingsAway(t *testing.T) {
	mended, kinds, chosen := map[string]int{}, map[string]int{}, 0
	for name, doc := range mendable(t) {
		for _, plan := range doc.Plans() {
			for _, f := range findingsOn(doc, plan.ID) {
				if !f.Mend.IsThere() {
					continue
				}
				checkMend(t, name, doc, plan.ID, f, f.Mend)
				mended[f.Subject]++
				kinds[kindOf(f.Mend)]++
				if f.Mend.Choices == nil {
					continue
				}
				for _, c := range f.Mend.Choices(nil) {
					checkMend(t, name, doc, plan.ID, f, c.Mend)
					chosen++
				}
			}
		}
	}
	t.Logf("%v, %v, %d choices", mended, kinds, chosen)
	for _, subject := range []string{
		analysis.SubjectVoltage, analysis.SubjectPhases, analysis.SubjectContinuous, analysis.SubjectFault, analysis.SubjectBreaker,
		analysis.SubjectDischarge, analysis.SubjectFeeder, analysis.SubjectLeads, analysis.SubjectRequired, analysis.SubjectRisk, analysis.SubjectNameplate, analysis.SubjectEarthing, analysis.SubjectPlace,
	} {
		if mended[subject] == 0 {
			t.Errorf("nothing on %s was mended: the documents show too little", subject)
		}
	}
	for _, kind := range []string{
		"bond the raceway of the earth lead of … at both ends", "cut the slack of the leads of … off", "leave out L-N", "place a protector on …",
		"replace … by one that fits", "set the breaker of … to # poles", "set the breaker of … to #A", "set the earth lead of … to # mm²",
		"set the leads of … to # AWG", "set the live leads of … to # mm²", "shorten the leads of … to #in", "shorten the leads of … to #mm",
		"state the levels as Up", "state the levels as VPR", "swap the ends of …", "take # times the crest for …", "twist the leads of …",
	} {
		if kinds[kind] == 0 {
			t.Errorf("nobody was told to %s: the documents show too little", kind)
		}
	}
}

// kindOf is what a mend does without what it does it to.
func kindOf(m analysis.Mend) string { return wording(m.Kind) }

func checkMend(t *testing.T, name string, doc *diagram.Document, plan diagram.ID, f analysis.Finding, m analysis.Mend) {
	t.Helper()
	after := doc.Snapshot()
	if _, err := after.Edit(m.Apply); err != nil {
		t.Errorf("%s: %s: %s: %v", name, f.What, m.Label, err)
		return
	}
	if slices.ContainsFunc(findingsOn(after, plan), func(g analysis.Finding) bool { return sameFinding(f, g) }) {
		t.Errorf("%s: %s, %s: %s\n  is still there after: %s", name, f.Severity, f.Subject, f.What, m.Label)
	}
	if falsified(doc, after) && f.Subject != analysis.SubjectNameplate && m.Opening.Protector == "" && m.Kind != "replace … by one that fits" {
		t.Errorf("%s: %s: %s alters a nameplate", name, f.What, m.Label)
	}
}

// sameFinding reports whether two findings say the same of the same thing, the
// second one no less gravely: its figures may differ.
func sameFinding(f, g analysis.Finding) bool {
	return f.Subject == g.Subject && f.Records[0] == g.Records[0] && g.Severity >= f.Severity && wording(f.What) == wording(g.What)
}

var figures = regexp.MustCompile(`[0-9][0-9.,\x{a0}\x{202f}]*`)

// wording is a sentence without its figures.
func wording(what string) string { return figures.ReplaceAllString(what, "#") }

// falsified reports whether a protector that was there states other ratings.
func falsified(before, after *diagram.Document) bool {
	for old := range before.Protectors() {
		now, ok := after.Protector(old.ID)
		if ok && (now.Modes != old.Modes || now.System != old.System || now.Type != old.Type || now.Rating != old.Rating ||
			now.SCCR != old.SCCR || now.In != old.In || now.Imax != old.Imax || now.Iimp != old.Iimp) {
			return true
		}
	}
	return false
}
