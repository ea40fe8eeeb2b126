package diagram

import (
	"cmp"
	"iter"
	"slices"
)

// Document is the whole sheet: the building, its plans and its surge cases. Use New. It is not
// safe for use by several goroutines; hand them a Snapshot.
type Document struct {
	info       *Info
	parts      table[Part]
	feeders    table[Feeder]
	protectors table[Protector]
	plans      table[Plan]
	surges     table[Surge]
	asides     table[Aside]
	shown      ID // as Show was told
}

// FirstPlan is the id of the plan that a new document has.
const FirstPlan ID = "plan-1"

// New returns an empty sheet with one plan, the building as found.
func New() *Document {
	doc := &Document{info: &Info{}}
	doc.plans.set(FirstPlan, &Plan{ID: FirstPlan, Name: "As found", Order: 1})
	return doc
}

// Snapshot returns a document with the same records, at a cost that does not
// grow with their number. Either may be changed without the other seeing it.
func (d *Document) Snapshot() *Document {
	return &Document{
		info:       d.info,
		parts:      d.parts.share(),
		feeders:    d.feeders.share(),
		protectors: d.protectors.share(),
		plans:      d.plans.share(),
		surges:     d.surges.share(),
		asides:     d.asides.share(),
		shown:      d.shown,
	}
}

// Shown returns the plan that was looked at last, or the first one where that is
// gone or none was. It is kept in the file, but is no change of the document:
// nothing takes it back, and no sheet is unsaved for it.
func (d *Document) Shown() ID {
	if d.plans.byID[d.shown] != nil {
		return d.shown
	}
	return d.Plans()[0].ID
}

// Show notes which plan is looked at.
func (d *Document) Show(plan ID) { d.shown = plan }

// Info returns what the sheet says of itself.
func (d *Document) Info() Info { return *d.info }

// Part returns the part with the id, and whether there is one.
func (d *Document) Part(id ID) (Part, bool) { return d.parts.get(id) }

// Feeder returns the feeder with the id, and whether there is one.
func (d *Document) Feeder(id ID) (Feeder, bool) { return d.feeders.get(id) }

// Protector returns the protector with the id, and whether there is one.
func (d *Document) Protector(id ID) (Protector, bool) { return d.protectors.get(id) }

// Plan returns the plan with the id, and whether there is one.
func (d *Document) Plan(id ID) (Plan, bool) { return d.plans.get(id) }

// Aside returns the finding set aside with the id, and whether there is one.
func (d *Document) Aside(id ID) (Aside, bool) { return d.asides.get(id) }

// Asides yields the findings that are set aside, in the order of their ids.
func (d *Document) Asides() iter.Seq[Aside] { return d.asides.all() }

// Surge returns the surge case with the id, and whether there is one.
func (d *Document) Surge(id ID) (Surge, bool) { return d.surges.get(id) }

// Parts yields every part in the order of the ids.
func (d *Document) Parts() iter.Seq[Part] { return d.parts.all() }

// Feeders yields every feeder in the order of the ids.
func (d *Document) Feeders() iter.Seq[Feeder] { return d.feeders.all() }

// Protectors yields every protector of every plan in the order of the ids.
func (d *Document) Protectors() iter.Seq[Protector] { return d.protectors.all() }

// ProtectorsOf yields the protectors of one plan in the order of the ids.
func (d *Document) ProtectorsOf(plan ID) iter.Seq[Protector] {
	return func(yield func(Protector) bool) {
		for p := range d.protectors.all() {
			if p.Plan == plan && !yield(p) {
				return
			}
		}
	}
}

// Plans returns the plans as they are listed.
func (d *Document) Plans() []Plan {
	plans := slices.Collect(d.plans.all())
	slices.SortStableFunc(plans, func(a, b Plan) int { return cmp.Compare(a.Order, b.Order) })
	return plans
}

// Surges returns the surge cases as they are listed.
func (d *Document) Surges() []Surge {
	surges := slices.Collect(d.surges.all())
	slices.SortStableFunc(surges, func(a, b Surge) int { return cmp.Compare(a.Order, b.Order) })
	return surges
}

// Count returns how many parts, feeders and protectors there are.
func (d *Document) Count() (parts, feeders, protectors int) {
	return len(d.parts.byID), len(d.feeders.byID), len(d.protectors.byID)
}

// Has reports whether any record bears the id.
func (d *Document) Has(id ID) bool {
	return d.parts.byID[id] != nil || d.feeders.byID[id] != nil ||
		d.protectors.byID[id] != nil || d.plans.byID[id] != nil || d.surges.byID[id] != nil || d.asides.byID[id] != nil
}
