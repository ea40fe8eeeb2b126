package details

import (
	"slices"
	"strings"

	"clampline/analysis"
	"clampline/diagram"
	"clampline/diagram/unit"
)

type surge = diagram.Surge

// surgeRows returns the fields of a surge case.
func surgeRows(c unit.Convention, document func() *diagram.Document) []row[surge] {
	many := shown(func(s surge) bool { return s.Places != "" })
	return inForm(diagram.SurgeFields(), c, keys{"name", "places", "category", "switching", "part", "path", "wave", "voltage", "current", "note"}, own[surge]{
		"category": many, "switching": many,
		"part": func(r row[surge]) []row[surge] {
			at := func(label, none string) row[surge] {
				return choiceFrom(label, func(unit.Convention) []option[diagram.ID] { return arrivals(document(), none) },
					func(s surge) diagram.ID { return s.Part },
					func(s *surge, id diagram.ID) { s.Part = id })
			}
			return []row[surge]{
				at(r.label, "the supply in use").when(func(s surge) bool { return s.Places == "" }),
				at("in the zone of", "every zone").explained("Any part of the transformer zone whose boards and loads count.").when(func(s surge) bool { return s.Places != "" }),
			}
		},
	})
}

// arrivals lists where a surge may arrive: at what no part stands for, or at any part
// with terminals, by name.
func arrivals(doc *diagram.Document, none string) []option[diagram.ID] {
	var parts []diagram.Part
	for part := range doc.Parts() {
		if len(part.Kind.Ports()) > 0 {
			parts = append(parts, part)
		}
	}
	slices.SortStableFunc(parts, func(a, b diagram.Part) int { return strings.Compare(doc.NameOf(a.ID), doc.NameOf(b.ID)) })
	names, ids := []string{none}, []diagram.ID{""}
	for _, part := range parts {
		names, ids = append(names, doc.NameOf(part.ID)), append(ids, part.ID)
	}
	out := make([]option[diagram.ID], len(ids))
	for i, name := range Distinct(names, ids) {
		out[i] = option[diagram.ID]{ids[i], name}
	}
	return out
}

// surgeTarget reads and replaces the surge case at a place of the list. The
// first change to a usual one makes all of those the sheet's own.
func surgeTarget(e Editor, at int, c unit.Convention) target[surge] {
	find := func(doc *diagram.Document) (surge, bool) {
		list := analysis.SurgesOf(doc)
		if at >= len(list) {
			return surge{}, false
		}
		return list[at], true
	}
	out := newTarget(e, c, []diagram.ID{""}, func(doc *diagram.Document, _ diagram.ID) (surge, bool) { return find(doc) }, (*diagram.Tx).SetSurge)
	out.set = func(label string, alter func(*surge)) error {
		return e.Change(label, func(tx *diagram.Tx) error {
			before, ok := find(tx.Document())
			after := before
			alter(&after)
			if ok && after != before {
				own := ownSurges(tx)[at]
				after.ID, after.Order = own.ID, own.Order
				tx.SetSurge(after)
			}
			return nil
		})
	}
	return out
}

// ownSurges returns the surge cases of the sheet, after it has made the usual
// ones its own where it has none.
func ownSurges(tx *diagram.Tx) []surge {
	list := analysis.SurgesOf(tx.Document())
	for i := range list {
		if list[i].ID == "" {
			list[i].ID, list[i].Order = tx.NewSurgeID(), i+1
			tx.SetSurge(list[i])
		}
	}
	return list
}

// addSurge adds a surge case after those that there are.
func addSurge(e Editor, s surge) error {
	return e.Change("add surge case "+s.Name, func(tx *diagram.Tx) error {
		list := ownSurges(tx)
		s.ID, s.Order = tx.NewSurgeID(), list[len(list)-1].Order+1
		tx.SetSurge(s)
		return nil
	})
}

// removeSurge removes the surge case at a place of the list.
func removeSurge(e Editor, at int) error {
	list := analysis.SurgesOf(e.Document())
	return e.Change("remove surge case "+analysis.SurgeName(e.Document(), list[at]), func(tx *diagram.Tx) error {
		tx.Remove(ownSurges(tx)[at].ID)
		return nil
	})
}
