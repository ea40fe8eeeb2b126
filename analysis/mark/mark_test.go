package mark

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/draw"
	"clampline/diagram/scene"
	"clampline/diagram/unit"
)

func TestVerdictsLookDifferentWithoutColour(t *testing.T) {
	roles, dashes, letters := map[draw.Role]bool{}, map[draw.Dash]bool{}, map[string]bool{}
	for _, v := range analysis.Verdicts() {
		role, dash := Style(v)
		roles[role], dashes[dash], letters[v.Letter()] = true, true, true
	}
	want := len(analysis.Verdicts())
	if len(roles) != want || len(dashes) != want || len(letters) != want {
		t.Errorf("got %d colours, %d patterns, %d letters for %d verdicts", len(roles), len(dashes), len(letters), want)
	}
}

func TestTagLine(t *testing.T) {
	tests := []struct {
		name       string
		level      analysis.Level
		convention unit.Convention
		want       string
	}{
		{"known", analysis.Level{Mode: diagram.LineEarth, Known: true, Volts: 900, Withstand: 1500}, unit.NorthAmerican, "900 V L-G · 60 %"},
		{"known, IEC words", analysis.Level{Mode: diagram.LineEarth, Known: true, Volts: 900, Withstand: 1500}, unit.IEC, "900 V L-PE · 60 %"},
		{"no withstand", analysis.Level{Mode: diagram.LineNeutral, Known: true, Volts: 700}, unit.NorthAmerican, "700 V L-N · withstand not known"},
		{"unreached", analysis.Level{Reason: analysis.PastTransformer, Verdict: analysis.Unreached}, unit.NorthAmerican, "beyond a transformer"},
		{"missing mode", analysis.Level{Mode: diagram.NeutralEarth, Reason: analysis.MissingMode}, unit.NorthAmerican, "N-G has no protector"},
	}
	for _, test := range tests {
		if got := tagLine(test.level, test.convention); got != test.want {
			t.Errorf("%s: got %q, want %q", test.name, got, test.want)
		}
	}
}

func TestPiecesJoinWhatLooksAlike(t *testing.T) {
	sample := func(share float64, v analysis.Verdict) analysis.Sample {
		return analysis.Sample{Share: share, Known: true, Verdict: v}
	}
	samples := []analysis.Sample{
		sample(0, analysis.Held), sample(0.25, analysis.Held), sample(0.5, analysis.Tight), sample(0.75, analysis.Exceeded), sample(1, analysis.Exceeded),
	}
	for _, row := range []struct {
		basis       analysis.Basis
		tight, over float64 // where they begin
	}{
		{analysis.HandRule, 0.5, 0.75},
		{analysis.Transient, 0.375, 0.625}, // halfway between the samples
	} {
		want := []scene.Piece{
			{From: 0, To: row.tight, Role: draw.RoleHeld, Dash: draw.Solid},
			{From: row.tight, To: row.over, Role: draw.RoleTight, Dash: draw.LongDash},
			{From: row.over, To: 1, Role: draw.RoleExceeded, Dash: draw.Double},
		}
		if diff := cmp.Diff(want, pieces(samples, row.basis)); diff != "" {
			t.Errorf("%s: -want +got:\n%s", row.basis, diff)
		}
	}
}

// By the hand rule cover ends at a transformer; a solved surge goes on.
func TestBreaksOfTheHandRuleAlone(t *testing.T) {
	for basis, want := range map[analysis.Basis]int{analysis.HandRule: 1, analysis.Transient: 0} {
		result := &analysis.Result{Basis: basis, Breaks: []analysis.Break{{ID: "transformer-1", Reason: analysis.PastTransformer}}}
		got, explained := Of(diagram.New(), result, unit.IEC), 0
		for _, entry := range got.Legend {
			if entry.Break {
				explained++
			}
		}
		if len(got.Breaks) != want || explained != want {
			t.Errorf("%s: got %d breaks and %d entries of the legend for them, want %d", basis, len(got.Breaks), explained, want)
		}
	}
}

// A badge stands at the first record of a finding that is drawn, and is that of
// an error where one of its findings is. Notes have none, nor what a tag says.
func TestBadges(t *testing.T) {
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPlan(diagram.Plan{ID: "plan-2", Name: "Other"})
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
		tx.SetPart(diagram.Part{ID: "panel-2", Kind: diagram.Panel})
		tx.SetFeeder(diagram.Feeder{ID: "feeder-1", From: diagram.End{Part: "panel-1"}, To: diagram.End{Part: "panel-2"}})
		tx.SetProtector(diagram.Protector{ID: "protector-1", Plan: diagram.FirstPlan, Bus: "panel-1"})
		tx.SetProtector(diagram.Protector{ID: "protector-2", Plan: "plan-2", Bus: "panel-2"})
	})
	for _, row := range []struct {
		name     string
		findings []analysis.Finding
		want     map[diagram.ID]scene.Badge
	}{
		{"a warning at a part", []analysis.Finding{{Severity: analysis.Warning, Records: []diagram.ID{"panel-1", "panel-2"}}}, map[diagram.ID]scene.Badge{"panel-1": {Count: 1}}},
		{"an error at a protector", []analysis.Finding{{Severity: analysis.Error, Records: []diagram.ID{"protector-1", "panel-1"}}}, map[diagram.ID]scene.Badge{"protector-1": {Count: 1, Wrong: true}}},
		{"a protector of another plan", []analysis.Finding{{Severity: analysis.Error, Records: []diagram.ID{"protector-2", "panel-2"}}}, map[diagram.ID]scene.Badge{"panel-2": {Count: 1, Wrong: true}}},
		{"a feeder, and what is gone", []analysis.Finding{{Severity: analysis.Warning, Records: []diagram.ID{"load-9", "feeder-1"}}}, map[diagram.ID]scene.Badge{"feeder-1": {Count: 1}}},
		{"the worst counts", []analysis.Finding{
			{Severity: analysis.Error, Records: []diagram.ID{"panel-1"}}, {Severity: analysis.Warning, Records: []diagram.ID{"panel-1"}},
		}, map[diagram.ID]scene.Badge{"panel-1": {Count: 2, Wrong: true}}},
		{"a note", []analysis.Finding{{Severity: analysis.Remark, Records: []diagram.ID{"panel-1"}}}, map[diagram.ID]scene.Badge{}},
		{"a verdict", []analysis.Finding{{Severity: analysis.Error, Subject: analysis.SubjectCover, Records: []diagram.ID{"panel-1"}}}, map[diagram.ID]scene.Badge{}},
		{"of nothing in particular", []analysis.Finding{{Severity: analysis.Error}}, map[diagram.ID]scene.Badge{}},
	} {
		got := Of(doc, &analysis.Result{Plan: diagram.FirstPlan, Findings: row.findings}, unit.IEC).Badges
		if diff := cmp.Diff(row.want, got); diff != "" {
			t.Errorf("%s: -want +got:\n%s", row.name, diff)
		}
	}
}

// What stands under a protector: its name, the lowest level that it states in a mode
// that it has, and its longest lead.
func TestProtectorLines(t *testing.T) {
	rate := func(levels ...float64) diagram.Protector {
		p := diagram.Protector{Name: "SPD-1"}
		for i, level := range levels {
			p.Modes[i] = diagram.ModeRating{Connected: true, Level: level}
		}
		return p
	}
	long := rate(700)
	long.Leads.Phase.Length, long.Leads.Neutral.Length, long.Leads.Earth.Length = 0.2, 0.3, 0.25
	earth, phase := long, long
	earth.Leads.Earth.Length, phase.Leads.Phase.Length = 0.4, 0.5
	up, idle, nameless := rate(1500), rate(700, 500), rate(700)
	up.Rating = diagram.Up
	idle.Modes[1].Connected = false
	nameless.Name = ""
	for _, row := range []struct {
		name string
		p    diagram.Protector
		want []string
	}{
		{"the lowest of three", rate(1200, 700, 1500), []string{"SPD-1", "VPR 700 V", "lead 0 mm"}},
		{"the lowest first", rate(600, 700), []string{"SPD-1", "VPR 600 V", "lead 0 mm"}},
		{"one that is not stated", rate(0, 700), []string{"SPD-1", "VPR 700 V", "lead 0 mm"}},
		{"the last one not stated", rate(700, 0), []string{"SPD-1", "VPR 700 V", "lead 0 mm"}},
		{"one of half a volt", rate(0.5, 700), []string{"SPD-1", "VPR 0.5 V", "lead 0 mm"}},
		{"none", rate(), []string{"SPD-1", "rating not known", "lead 0 mm"}},
		{"one that is not connected", idle, []string{"SPD-1", "VPR 700 V", "lead 0 mm"}},
		{"rated by Up", up, []string{"SPD-1", "Up 1 500 V", "lead 0 mm"}},
		{"without a name", nameless, []string{"VPR 700 V", "lead 0 mm"}},
		{"its neutral lead the longest", long, []string{"SPD-1", "VPR 700 V", "lead 300 mm"}},
		{"its earth lead the longest", earth, []string{"SPD-1", "VPR 700 V", "lead 400 mm"}},
		{"its phase lead the longest", phase, []string{"SPD-1", "VPR 700 V", "lead 500 mm"}},
	} {
		got := protectorLines(row.p, unit.IEC)
		for i := range got {
			got[i] = strings.ReplaceAll(got[i], "\u00a0", " ")
		}
		if diff := cmp.Diff(row.want, got); diff != "" {
			t.Errorf("%s: -want +got\n%s", row.name, diff)
		}
	}
}

// A stretch between two places of the hand rule is as good as its better end, and
// not known where either is not.
func TestBetween(t *testing.T) {
	for _, row := range []struct{ a, b, want analysis.Verdict }{
		{analysis.Held, analysis.Tight, analysis.Held}, {analysis.Exceeded, analysis.Tight, analysis.Tight}, {analysis.Unreached, analysis.Unreached, analysis.Unreached},
		{analysis.Unknown, analysis.Held, analysis.Unknown}, {analysis.Held, analysis.Unknown, analysis.Unknown}, {analysis.Unknown, analysis.Unknown, analysis.Unknown},
	} {
		role, dash := Style(row.want)
		want := []scene.Piece{{From: 0.25, To: 0.75, Role: role, Dash: dash}}
		got := pieces([]analysis.Sample{{Share: 0.25, Verdict: row.a}, {Share: 0.75, Verdict: row.b}}, analysis.HandRule)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s to %s: -want +got\n%s", row.a, row.b, diff)
		}
	}
}

// A bus bears its verdict, its system where that is known, and one line.
func TestMarksOfAResult(t *testing.T) {
	wye := diagram.System{Wiring: diagram.Wye, Voltage: 480, Neutral: true, Earthing: diagram.Solid}
	doc := diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
		tx.SetPlan(diagram.Plan{ID: "plan-2"})
		for id, plan := range map[diagram.ID]diagram.ID{"protector-1": diagram.FirstPlan, "protector-2": diagram.FirstPlan, "protector-3": "plan-2"} {
			tx.SetProtector(diagram.Protector{ID: id, Plan: plan, Bus: "panel-1"})
		}
	})
	result := &analysis.Result{
		Basis: analysis.Transient, Plan: diagram.FirstPlan,
		Buses: map[diagram.ID]analysis.BusResult{
			"panel-1": {System: wye, Levels: []analysis.Level{{Mode: diagram.LineEarth, Known: true, Volts: 3000, Withstand: 2500, Verdict: analysis.Exceeded}}},
			"panel-2": {Levels: []analysis.Level{{Verdict: analysis.Unreached, Reason: analysis.NoProtector}}},
		},
		Surges: []analysis.SurgeResult{{}, {Failed: []diagram.ID{"protector-2"}}},
	}
	got := Of(doc, result, unit.NorthAmerican)
	first, second := got.Parts["panel-1"], got.Parts["panel-2"]
	if first.Role != draw.RoleExceeded || first.Dash != draw.Double || first.Letter != "X" || first.System != "480Y/277" || len(first.Lines) != 1 {
		t.Errorf("got %+v", first)
	}
	if second.Role != draw.RoleUnreached || second.Letter != "U" || second.System != "" {
		t.Errorf("got %+v", second)
	}
	if lines := got.Protectors["protector-2"]; lines[len(lines)-1] != "fails in a surge" || len(got.Protectors["protector-1"]) != len(lines)-1 {
		t.Errorf("got %q and %q", lines, got.Protectors["protector-1"])
	}
	if _, other := got.Protectors["protector-3"]; other || len(got.Protectors) != 2 {
		t.Errorf("got %v", got.Protectors)
	}
	if len(got.Legend) != len(analysis.Verdicts())+2 {
		t.Errorf("got %d entries of the legend", len(got.Legend))
	}
	if badge := got.Legend[len(got.Legend)-2].Badge; badge.Count != 1 || !badge.Wrong {
		t.Errorf("the first badge of the legend is %+v", badge)
	}
	if badge := got.Legend[len(got.Legend)-1].Badge; badge.Count != 1 || badge.Wrong {
		t.Errorf("the second badge of the legend is %+v", badge)
	}
}
