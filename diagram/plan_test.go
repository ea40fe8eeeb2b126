package diagram_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/unit"
)

// planned is a panel with two protectors in each of two plans, of which the first is
// locked, and another panel with none.
func planned(t *testing.T) *diagram.Document {
	t.Helper()
	return diagramtest.Sheet(t, func(tx *diagram.Tx) {
		tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel})
		tx.SetPart(diagram.Part{ID: "panel-2", Kind: diagram.Panel})
		tx.SetPlan(diagram.Plan{ID: diagram.FirstPlan, Name: "As\nfound", Locked: true})
		tx.SetPlan(diagram.Plan{ID: "plan-2", Name: "Better", Order: 2})
		for id, plan := range map[diagram.ID]diagram.ID{"spd-1": diagram.FirstPlan, "spd-2": "plan-2"} {
			tx.SetProtector(diagram.Protector{ID: id, Plan: plan, Bus: "panel-1"})
		}
	})
}

// A lock refuses what would change the protectors of the plan, unless the same change
// unlocks it, and nothing else.
func TestLock(t *testing.T) {
	alter := func(id diagram.ID, f func(*diagram.Protector)) func(*diagram.Tx) {
		return func(tx *diagram.Tx) {
			p, _ := tx.Protector(id)
			f(&p)
			tx.SetProtector(p)
		}
	}
	unlock := func(tx *diagram.Tx) { tx.SetPlan(diagram.Plan{ID: diagram.FirstPlan}) }
	for name, row := range map[string]struct {
		do    func(*diagram.Tx)
		taken bool
	}{
		"a rating":         {alter("spd-1", func(p *diagram.Protector) { p.In = 20e3 }), false},
		"a lead":           {alter("spd-1", func(p *diagram.Protector) { p.Leads.Phase.Length = 1 }), false},
		"its name":         {alter("spd-1", func(p *diagram.Protector) { p.Name = "SPD" }), false},
		"to another board": {alter("spd-1", func(p *diagram.Protector) { p.Bus = "panel-2" }), false},
		"to another plan":  {alter("spd-1", func(p *diagram.Protector) { p.Plan = "plan-2" }), false},
		"into the plan":    {alter("spd-2", func(p *diagram.Protector) { p.Plan = diagram.FirstPlan }), false},
		"another one": {func(tx *diagram.Tx) {
			tx.SetProtector(diagram.Protector{ID: "spd-3", Plan: diagram.FirstPlan, Bus: "panel-2"})
		}, false},
		"one less":       {func(tx *diagram.Tx) { tx.Remove("spd-1") }, false},
		"its board goes": {func(tx *diagram.Tx) { tx.Remove("panel-1") }, false},
		"the plan goes":  {func(tx *diagram.Tx) { tx.Remove(diagram.FirstPlan) }, false},
		"a change and a lock": {func(tx *diagram.Tx) {
			alter("spd-2", func(p *diagram.Protector) { p.In = 1 })(tx)
			tx.SetPlan(diagram.Plan{ID: "plan-2", Locked: true})
		}, true},
		"unlocked by the change":        {func(tx *diagram.Tx) { alter("spd-1", func(p *diagram.Protector) { p.In = 1 })(tx); unlock(tx) }, true},
		"where it is drawn":             {alter("spd-1", func(p *diagram.Protector) { p.Offset = 5 }), true},
		"the other plan":                {alter("spd-2", func(p *diagram.Protector) { p.In = 20e3 }), true},
		"the building":                  {func(tx *diagram.Tx) { tx.SetPart(diagram.Part{ID: "panel-1", Kind: diagram.Panel, Name: "Hall"}) }, true},
		"a board without a protector":   {func(tx *diagram.Tx) { tx.Remove("panel-2") }, true},
		"the name of the plan":          {func(tx *diagram.Tx) { tx.SetPlan(diagram.Plan{ID: diagram.FirstPlan, Name: "Today", Locked: true}) }, true},
		"what is set aside in the plan": {func(tx *diagram.Tx) { tx.SetAside(diagram.Aside{ID: "aside-1", Plan: diagram.FirstPlan, Rule: "x"}) }, true},
	} {
		doc := planned(t)
		_, err := doc.Edit(func(tx *diagram.Tx) error { row.do(tx); return nil })
		if (err == nil) != row.taken {
			t.Errorf("%s: got %v", name, err)
		}
		problem := diagram.Problem{}
		if err != nil && (!errors.As(err, &problem) || !strings.HasPrefix(err.Error(), "plan As found: it is locked") || !strings.Contains(problem.Remedy, "(Plan, Unlock plan)")) {
			t.Errorf("%s: %q does not say which plan and what to do", name, err)
		}
	}
}

// A change of many protectors of a locked plan has one reason to be refused.
func TestLockIsSaidOnce(t *testing.T) {
	doc := planned(t)
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		tx.SetProtector(diagram.Protector{ID: "spd-3", Plan: diagram.FirstPlan, Bus: "panel-2"})
		tx.Remove("spd-1")
		return nil
	})
	if invalid := (*diagram.InvalidError)(nil); !errors.As(err, &invalid) || len(invalid.Problems) != 1 {
		t.Errorf("got %v", err)
	}
}

// What is taken back leads through a lock: the step that locked is taken back before
// what it locked.
func TestLockAndUndo(t *testing.T) {
	doc := planned(t)
	edit := func(f func(*diagram.Tx)) diagram.Change {
		change, err := doc.Edit(func(tx *diagram.Tx) error { f(tx); return nil })
		if err != nil {
			t.Fatal(err)
		}
		return change
	}
	unlocked := edit(func(tx *diagram.Tx) { tx.SetPlan(diagram.Plan{ID: diagram.FirstPlan}) })
	gone := edit(func(tx *diagram.Tx) { tx.Remove("spd-1") })
	locked := edit(func(tx *diagram.Tx) { tx.SetPlan(diagram.Plan{ID: diagram.FirstPlan, Locked: true}) })
	for _, change := range []diagram.Change{locked, gone, unlocked} {
		doc.Apply(change.Inverse())
	}
	if _, there := doc.Protector("spd-1"); !there || len(doc.Check()) > 0 {
		t.Errorf("the protector is there: %t; problems: %v", there, doc.Check())
	}
}

func TestDates(t *testing.T) {
	for day, taken := range map[string]bool{
		"": true, "2026-11-29": true, "2024-02-29": true, "2026-02-29": false, "2026-13-01": false, "29.11.2026": false, "2026-11": false, "2026-11-29 ": false, "today": false,
	} {
		_, err := diagram.New().Edit(func(tx *diagram.Tx) error {
			tx.SetPlan(diagram.Plan{ID: diagram.FirstPlan, Date: day})
			return nil
		})
		if (err == nil) != taken {
			t.Errorf("%q: got %v", day, err)
		}
	}
}

// The plan that is looked at goes along with a snapshot and survives no plan that is
// gone; a note of it is no change.
func TestShown(t *testing.T) {
	doc := planned(t)
	if got := doc.Shown(); got != diagram.FirstPlan {
		t.Errorf("at first: %s", got)
	}
	doc.Show("plan-2")
	if got := doc.Snapshot().Shown(); got != "plan-2" {
		t.Errorf("a snapshot: %s", got)
	}
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) { tx.Remove("plan-2") })
	if got := doc.Shown(); got != diagram.FirstPlan {
		t.Errorf("after the plan is gone: %s", got)
	}
}

// plansOf puts protectors on one panel, in two plans.
func plansOf(t *testing.T, before, after []diagram.Protector) *diagram.Document {
	t.Helper()
	doc := planned(t)
	diagramtest.Edit(t, doc, func(tx *diagram.Tx) {
		tx.SetPlan(diagram.Plan{ID: diagram.FirstPlan})
		tx.Remove("spd-1", "spd-2")
		for plan, list := range map[diagram.ID][]diagram.Protector{diagram.FirstPlan: before, "plan-2": after} {
			for _, p := range list {
				p.Plan = plan
				if p.Bus == "" {
					p.Bus = "panel-1"
				}
				tx.SetProtector(p)
			}
		}
	})
	return doc
}

// toldOf writes differences: "a>b" for what changed, ">b" for what was added.
func toldOf(list []diagram.PlanDifference) string {
	var out []string
	for _, d := range list {
		word := ">"
		if d.Before != nil {
			word = string(d.Before.ID) + word
		}
		if d.After != nil {
			word += string(d.After.ID)
		}
		out = append(out, word)
	}
	return strings.Join(out, " ")
}

func TestPlanDifferences(t *testing.T) {
	type list = []diagram.Protector
	long := diagram.Leads{Phase: diagram.Lead{Length: 1}}
	for name, row := range map[string]struct {
		before, after list
		want          string
	}{
		"none":                     {nil, nil, ""},
		"the same":                 {list{{ID: "a", Name: "SPD 1", In: 1}}, list{{ID: "b", Name: "SPD 1", In: 1}}, ""},
		"drawn elsewhere":          {list{{ID: "a"}}, list{{ID: "b", Offset: 7}}, ""},
		"added":                    {nil, list{{ID: "b"}}, ">b"},
		"removed":                  {list{{ID: "a"}}, nil, "a>"},
		"changed":                  {list{{ID: "a"}}, list{{ID: "b", Leads: long}}, "a>b"},
		"renamed":                  {list{{ID: "a", Name: "SPD 1"}}, list{{ID: "b", Name: "SPD 2"}}, "a>b"},
		"to another board":         {list{{ID: "a", Name: "SPD 1"}}, list{{ID: "b", Name: "SPD 1", Bus: "panel-2"}}, "a> >b"},
		"a name before a likeness": {list{{ID: "a", Name: "S", In: 1}, {ID: "b", Name: "T", In: 2, Imax: 2}}, list{{ID: "c", Name: "T", In: 1}}, "b>c a>"},
		"what is most alike":       {list{{ID: "a", In: 1, Imax: 1, Iimp: 1}, {ID: "b", In: 2}}, list{{ID: "c", In: 2, SCCR: 5}}, "b>c a>"},
		"one more of the same":     {list{{ID: "a", Name: "S"}}, list{{ID: "b", Name: "S"}, {ID: "c", Name: "T"}}, ">c"},
	} {
		doc := plansOf(t, row.before, row.after)
		if got := toldOf(diagram.PlanDifferences(doc, diagram.FirstPlan, "plan-2")); got != row.want {
			t.Errorf("%s: got %q, want %q", name, got, row.want)
		}
	}
}

// A plan has no differences from itself, and each protector stands for itself.
func TestPlanAgainstItself(t *testing.T) {
	for seed := range uint64(20) {
		doc := diagramtest.Random(diagramtest.Rand(seed), 12)
		for _, plan := range doc.Plans() {
			if got := diagram.PlanDifferences(doc, plan.ID, plan.ID); len(got) > 0 {
				t.Fatalf("seed %d, %s: got %s", seed, plan.ID, toldOf(got))
			}
			count := 0
			for range doc.ProtectorsOf(plan.ID) {
				count++
			}
			if got := diagram.Counterparts(doc, plan.ID, plan.ID); len(got) != count {
				t.Fatalf("seed %d, %s: %d stand for each other, want %d", seed, plan.ID, len(got), count)
			}
		}
	}
}

// What changed is told with what weighs most first, equal steps together, in the
// words and units of the convention.
func TestLinesOfADifference(t *testing.T) {
	before := diagram.Protector{ID: "a", Name: "SPD 1", Type: diagram.Type3, External: true, Price: 100}
	after := diagram.Protector{ID: "b", Name: "SPD 2", Type: diagram.Type2, Price: 540}
	leads := func(phase, neutral, earth float64) diagram.Leads {
		return diagram.Leads{Phase: diagram.Lead{Length: phase}, Neutral: diagram.Lead{Length: neutral}, Earth: diagram.Lead{Length: earth}}
	}
	before.Leads, after.Leads = leads(0.45, 0.45, 0.45), leads(0.15, 0.15, 0.2)
	before.Modes[0], after.Modes[0] = diagram.ModeRating{Connected: true, Level: 1000}, diagram.ModeRating{Connected: true, Level: 700, MCOV: 150}
	before.Modes[1], after.Modes[1] = before.Modes[0], after.Modes[0]
	d := diagram.PlanDifference{Before: &before, After: &after}
	want := []string{
		"phase, neutral lead 450 mm → 150 mm", "earth lead 450 mm → 200 mm", "L-N, L-PE VPR 1\u00a0000 V → 700 V", "type or class type 3 → type 2",
		"L-N, L-PE continuous voltage nothing → 150 V", "outside the board yes → no", "name SPD 1 → SPD 2", "price 100 → 540",
	}
	if diff := cmp.Diff(want, d.Lines(unit.IEC)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	before.Leads, after.Leads = leads(0.4572, 0.4572, 0.4572), leads(0.1524, 0.1524, 0.1524)
	if got, want := d.Lines(unit.NorthAmerican)[0], "leads 18 in → 6 in"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := (diagram.PlanDifference{After: &after}).Lines(unit.IEC); got != nil {
		t.Errorf("of what was added: %q", got)
	}
}
