package assess_test

import (
	"context"
	"slices"
	"testing"

	"clampline/analysis"
	"clampline/analysis/handrule"
	"clampline/analysis/rule"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/library"
)

// Where the hand rule does not count a protector because of its voltage, its
// earthing or its phases, the rules on protectors say what is wrong: nothing
// else would.
func TestWhatTheHandRuleRefusesIsFound(t *testing.T) {
	if testing.Short() {
		t.Skip("slow under the race detector, and nothing runs side by side that other tests don't")
	}
	refused := 0
	for _, system := range systemsToTry() {
		for _, p := range protectorsToTry() {
			reasons := refusals(t, system, p)
			if len(reasons) == 0 {
				continue
			}
			refused++
			for _, practice := range []diagram.Practice{diagram.NECPractice, diagram.IECPractice} {
				if found := rule.Fits(p, system, diagram.Codes{Practice: practice}); !slices.ContainsFunc(found, isGrave) {
					t.Errorf("%s on %s by %s: the hand rule says %v; the rules find nothing grave in %v", p.ID, system, practice, reasons, found)
				}
			}
		}
	}
	if refused == 0 {
		t.Fatal("the hand rule refuses nothing: the test looks at nothing")
	}
}

// Where the rules say that a protector conducts all the time, the hand rule
// does not count it.
func TestWhatBurnsIsNotCounted(t *testing.T) {
	burning := 0
	for _, preset := range diagram.Presets() {
		for _, p := range protectorsToTry() {
			found := rule.Fits(p, preset.System, diagram.Codes{})
			if !slices.ContainsFunc(found, isError) {
				continue
			}
			burning++
			if len(refusals(t, preset.System, p)) == 0 && !slices.ContainsFunc(found, onlyByTable) {
				t.Errorf("%s on %s: the rules find %v; the hand rule counts it in every mode", p.ID, preset.Name, found)
			}
		}
	}
	if burning == 0 {
		t.Fatal("the rules find no error: the test looks at nothing")
	}
}

func isGrave(f analysis.Finding) bool { return f.Severity > analysis.Remark }
func isError(f analysis.Finding) bool { return f.Severity == analysis.Error }

// onlyByTable reports an error of which the hand rule does not know: the table
// of IEC asks for a tenth more than what stands there, and a protector of which
// nothing is connected is merely missing.
func onlyByTable(f analysis.Finding) bool {
	idle := f.Subject == analysis.SubjectPhases && f.Severity == analysis.Error
	return f.Subject == analysis.SubjectContinuous || idle
}

// systemsToTry returns the presets and every wiring with every earthing, known
// or not, with a neutral and without.
func systemsToTry() []diagram.System {
	var out []diagram.System
	for _, preset := range diagram.Presets() {
		out = append(out, preset.System)
	}
	for _, wiring := range diagram.Wirings() {
		for _, earthing := range append(diagram.Earthings(), "") {
			voltage := 240.0
			if earthing.IsIEC() {
				voltage = 400
			}
			for _, neutral := range []bool{true, false} {
				out = append(out, diagram.System{Wiring: wiring, Voltage: voltage, Neutral: neutral, Earthing: earthing})
			}
		}
	}
	return out
}

// protectorsToTry returns what comes with the program, and the same without
// their continuous ratings, so that the system they are made for has to tell.
func protectorsToTry() []diagram.Protector {
	var out []diagram.Protector
	for _, entry := range library.BuiltIn() {
		p := entry.Protector
		out = append(out, p)
		for mode := range p.Modes {
			p.Modes[mode].MCOV = 0
		}
		p.ID += "-unstated"
		out = append(out, p)
	}
	return out
}

// refusals returns the reasons for which the hand rule does not count the
// protector in some mode on a panel of the system.
func refusals(t *testing.T, system diagram.System, p diagram.Protector) []analysis.Reason {
	t.Helper()
	doc := diagram.New()
	p.ID, p.Plan, p.Bus = "protector-1", diagram.FirstPlan, "panel-1"
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "supply-1", Kind: diagram.Supply, System: system})
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
		tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "supply-1"}, To: diagram.End{Part: "panel-1"}, Length: 5})
		tx.SetProtector(p)
	})
	var out []analysis.Reason
	for _, level := range diagramtest.Must(handrule.Solve(context.Background(), doc, diagram.FirstPlan, analysis.Trace(doc), handrule.DefaultRule())).Buses["panel-1"].Levels {
		switch level.Reason {
		case analysis.WrongVoltage, analysis.WrongEarthing, analysis.WrongPhases:
			if !slices.Contains(out, level.Reason) {
				out = append(out, level.Reason)
			}
		}
	}
	return out
}
