package diagram_test

import (
	"testing"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/geom"
)

func TestSameBuilding(t *testing.T) {
	for _, row := range []struct {
		name string
		edit func(*diagram.Tx)
		want bool
	}{
		{"nothing", func(*diagram.Tx) {}, true},
		{"a lead", func(tx *diagram.Tx) {
			p, _ := tx.Protector("protector-1")
			p.Leads.Phase.Length = 3
			tx.SetProtector(p)
		}, true},
		{"no protector", func(tx *diagram.Tx) { tx.Remove("protector-1") }, true},
		{"another plan", func(tx *diagram.Tx) { tx.SetPlan(diagram.Plan{ID: "plan-7", Name: "Seven"}) }, true},
		{"drawn elsewhere", func(tx *diagram.Tx) {
			p, _ := tx.Part("part-2")
			p.At, p.Turn, p.Span = geom.Pt(500, 500), 1, 90
			tx.SetPart(p)
		}, true},
		{"another name", func(tx *diagram.Tx) { p, _ := tx.Part("part-2"); p.Name = "Attic"; tx.SetPart(p) }, false},
		{"a longer feeder", func(tx *diagram.Tx) { f, _ := tx.Feeder("feeder-1"); f.Length += 1; tx.SetFeeder(f) }, false},
		{"an open switch", func(tx *diagram.Tx) {
			f, _ := tx.Feeder("feeder-1")
			f.Switch = diagram.SwitchData{Kind: diagram.Breaker, Open: true}
			tx.SetFeeder(f)
		}, false},
		{"no feeder", func(tx *diagram.Tx) { tx.Remove("feeder-1") }, false},
		{"another part instead", func(tx *diagram.Tx) {
			tx.Remove("part-2")
			tx.SetPart(diagram.Part{ID: "part-99", Kind: diagram.Panel})
		}, false},
		{"another practice", func(tx *diagram.Tx) {
			info := tx.Document().Info()
			info.Codes.Practice = diagram.IECPractice
			tx.SetInfo(info)
		}, false},
	} {
		doc := diagramtest.Building(12)
		before := doc.Snapshot()
		change, err := doc.Edit(func(tx *diagram.Tx) error { row.edit(tx); return nil })
		if err != nil {
			t.Fatalf("%s: %v", row.name, err)
		}
		if got := doc.SameBuilding(before); got != row.want || before.SameBuilding(doc) != row.want {
			t.Errorf("%s: the same: %t, want %t", row.name, got, row.want)
		}
		doc.Apply(change.Inverse())
		if !doc.SameBuilding(before) {
			t.Errorf("%s taken back: it is another building", row.name)
		}
	}
}

// What a snapshot lists stays, whatever becomes of what it was taken of, and that
// lists what it holds.
func TestListsFollowTheirDocumentAlone(t *testing.T) {
	rng := diagramtest.Rand(3)
	doc := diagramtest.Random(rng, 30)
	type state struct {
		doc   *diagram.Document
		parts []diagram.Part
	}
	list := func(d *diagram.Document) (out []diagram.Part) {
		for p := range d.Parts() {
			out = append(out, p)
		}
		return out
	}
	var past []state
	for range 60 {
		snapshot := doc.Snapshot()
		past = append(past, state{snapshot, list(snapshot)})
		diagramtest.Shake(rng, doc, 3)
		for _, p := range list(doc) {
			if now, ok := doc.Part(p.ID); !ok || now != p {
				t.Fatalf("%s is listed as %+v and is %+v", p.ID, p, now)
			}
		}
	}
	for i, s := range past {
		for j, p := range list(s.doc) {
			if p != s.parts[j] {
				t.Fatalf("snapshot %d follows a later change: %+v was %+v", i, p, s.parts[j])
			}
		}
	}
}

// A record that is set while its sort is gone through is met as it has become.
func TestSettingWhileGoingThrough(t *testing.T) {
	for name, first := range map[string]func(*diagram.Document){
		"alone": func(*diagram.Document) {}, "shared": func(d *diagram.Document) { d.Snapshot() },
	} {
		doc, met := diagramtest.Building(10), ""
		first(doc)
		_, err := doc.Edit(func(tx *diagram.Tx) error {
			for p := range tx.Document().Parts() {
				last, _ := tx.Part("part-10")
				last.Name = "Attic"
				tx.SetPart(last)
				met = p.Name
			}
			return nil
		})
		if err != nil || met != "Attic" {
			t.Errorf("%s: the last part is met as %q, %v", name, met, err)
		}
	}
}
