package diagram

import (
	"cmp"
	"strconv"
	"strings"

	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// Index answers what is connected to what. It is made for one state of a
// document and does not follow later changes.
type Index struct {
	feeders    map[ID][]Feeder
	protectors map[ID][]Protector
}

// NewIndex returns the index of the building and of one plan's protectors.
// Its cost grows with the number of records.
func NewIndex(doc *Document, plan ID) *Index {
	index := &Index{feeders: feedersByPart(doc), protectors: map[ID][]Protector{}}
	for protector := range doc.ProtectorsOf(plan) {
		index.protectors[protector.Bus] = append(index.protectors[protector.Bus], protector)
	}
	return index
}

// feedersByPart lists the feeders at each part, all lists in one room.
func feedersByPart(doc *Document) map[ID][]Feeder {
	ends := func(visit func(part ID, f *Feeder)) {
		for _, f := range doc.feeders.records() {
			visit(f.From.Part, f)
			if f.To.Part != f.From.Part {
				visit(f.To.Part, f)
			}
		}
	}
	count, total := make(map[ID]int, len(doc.parts.byID)), 0
	ends(func(part ID, _ *Feeder) { count[part]++; total++ })
	out, room := make(map[ID][]Feeder, len(count)), make([]Feeder, total)
	for part, n := range count {
		out[part], room = room[:0:n], room[n:]
	}
	ends(func(part ID, f *Feeder) { out[part] = append(out[part], *f) })
	return out
}

// FeedersAt returns the feeders that end at the part, in the order of the
// ids. The caller must not alter the slice.
func (x *Index) FeedersAt(part ID) []Feeder { return x.feeders[part] }

// ProtectorsOn returns the protectors attached to the part, in the order of
// the ids. The caller must not alter the slice.
func (x *Index) ProtectorsOn(part ID) []Protector { return x.protectors[part] }

// NameOf returns what a person calls the record: its name; for a feeder
// without one, the parts that it joins; or else the id. It is one line, and what
// would act instead of being seen is shown (unit.Visible).
func (d *Document) NameOf(id ID) string {
	name := ""
	if p, ok := d.Part(id); ok {
		name = p.Name
	} else if f, ok := d.Feeder(id); ok {
		name = cmp.Or(f.Name, "feeder "+d.NameOf(f.From.Part)+" – "+d.NameOf(f.To.Part))
	} else if p, ok := d.Protector(id); ok {
		name = p.Name
	} else if p, ok := d.Plan(id); ok {
		name = p.Name
	} else if s, ok := d.Surge(id); ok {
		name = s.Name
	}
	return nameOr(name, id)
}

// nameOr returns a name on one line, or else the id.
func nameOr(name string, id ID) string {
	return cmp.Or(unit.Visible(strings.ReplaceAll(name, "\n", " ")), string(id))
}

// NewProtectorName returns the name of a new protector, with the number after
// the highest one in its plan, written as that one is: "SPD 4", or "SPD-4" after
// "SPD-3".
func (d *Document) NewProtectorName(plan ID) string {
	highest, stem := 0, "SPD "
	for protector := range d.ProtectorsOf(plan) {
		for _, written := range []string{"SPD ", "SPD-"} {
			digits, ok := strings.CutPrefix(protector.Name, written)
			if number, err := strconv.Atoi(digits); ok && err == nil && number < maxCount && number > highest {
				highest, stem = number, written
			}
		}
	}
	return stem + strconv.Itoa(highest+1)
}

// Extent returns the smallest rectangle that holds the middle of every part,
// in mm on the sheet.
func (d *Document) Extent() geom.Rect {
	out := geom.Empty()
	for part := range d.Parts() {
		out = out.Include(part.At)
	}
	return out
}

// UsesIEC reports whether a source of the sheet is earthed in one of the ways
// that IEC 60364-1 names, which suggests its units and words.
func (d *Document) UsesIEC() bool {
	for _, part := range d.parts.byID { // in no order, and without copies: fields ask on each refresh
		if part.Kind.IsSource() && part.System.Earthing.IsIEC() {
			return true
		}
	}
	return false
}

// FollowsIEC reports whether the rules of IEC count on the sheet: those that its
// codes choose, or else those that the earthing of its sources suggests.
func (d *Document) FollowsIEC() bool {
	return d.info.Codes.FollowsIEC(d.info.Codes.Practice == "" && d.UsesIEC())
}
