package file

import "clampline/diagram"

// Current is the version of the format that Write makes: that of the fields which
// diagram lists.
const Current = 1

const schemaAddress = "https://clampline.example/schema/v1.json"

// fields is told the members of a record one by one, under the names of the
// file and with their units; it reads them from a file or writes them into
// one.
type fields interface {
	// record holds what visit names; the names that it does not name are
	// kept in extra.
	record(id *diagram.ID, extra *string, visit func())
	// group holds what visit names in an object of its own.
	group(name string, visit func())
	// optional is a group that says by being there that the flag is set.
	optional(name string, there *bool, visit func())
	text(name, v string, set func(string))
	flag(name string, v *bool)
	count(name string, v *int)
	// number is written even where it is 0, if that is asked for.
	number(name, unit string, always bool, v *float64)
}

// visit tells f the fields of a record that lie in one group, from the names at a
// depth on.
func visit[R any](f fields, list []diagram.Field[R], r *R, depth int) {
	for len(list) > 0 {
		first, name := &list[0], list[0].Names()[depth]
		if len(first.Names()) == depth+1 {
			leaf(f, first, name, r)
			list = list[1:]
			continue
		}
		n := 1
		for n < len(list) && list[n].Names()[depth] == name {
			n++
		}
		inner := list[:n]
		list = list[n:]
		if first.Presence && len(first.Names()) == depth+2 {
			f.optional(name, first.Flag(r), func() { visit(f, inner[1:], r, depth+1) })
			continue
		}
		f.group(name, func() { visit(f, inner, r, depth+1) })
	}
}

func leaf[R any](f fields, field *diagram.Field[R], name string, r *R) {
	switch field.Sort {
	case diagram.SortFlag:
		f.flag(name, field.Flag(r))
	case diagram.SortCount:
		f.count(name, field.Count(r))
	case diagram.SortNumber:
		f.number(name, field.Range.Name, field.Always, field.Number(r))
	default:
		f.text(name, field.Text(r), func(to string) { field.SetText(r, to) })
	}
}

// identity returns where the id and the members that nobody knows lie in a record.
type identity[R any] func(*R) (*diagram.ID, *string)

// recordOf returns what tells all of a record.
func recordOf[R any](list []diagram.Field[R], of identity[R]) func(fields, *R) {
	return func(f fields, r *R) {
		id, extra := of(r)
		f.record(id, extra, func() { visit(f, list, r, 0) })
	}
}

// The records of a file.
var (
	planFields      = recordOf(diagram.PlanFields(), ofPlan)
	partFields      = recordOf(diagram.PartFields(), ofPart)
	feederFields    = recordOf(diagram.FeederFields(), ofFeeder)
	protectorFields = recordOf(diagram.ProtectorFields(), ofProtector)
	surgeFields     = recordOf(diagram.SurgeFields(), ofSurge)
	asideFields     = recordOf(diagram.AsideFields(), ofAside)
	// kindFields are those of a protector in a library: without where it stands.
	kindFields = recordOf(unplaced(diagram.ProtectorFields()), ofProtector)
)

func ofPlan(p *diagram.Plan) (*diagram.ID, *string)           { return &p.ID, &p.Extra }
func ofPart(p *diagram.Part) (*diagram.ID, *string)           { return &p.ID, &p.Extra }
func ofFeeder(f *diagram.Feeder) (*diagram.ID, *string)       { return &f.ID, &f.Extra }
func ofProtector(p *diagram.Protector) (*diagram.ID, *string) { return &p.ID, &p.Extra }
func ofSurge(s *diagram.Surge) (*diagram.ID, *string)         { return &s.ID, &s.Extra }
func ofAside(a *diagram.Aside) (*diagram.ID, *string)         { return &a.ID, &a.Extra }

func unplaced(list []diagram.Field[diagram.Protector]) []diagram.Field[diagram.Protector] {
	var out []diagram.Field[diagram.Protector]
	for _, f := range list {
		if !f.Placed {
			out = append(out, f)
		}
	}
	return out
}

// infoFields tells what the sheet as a whole says of itself.
func infoFields(f fields, v *diagram.Info) {
	f.group("info", func() { visit(f, diagram.InfoFields(), v, 0) })
}
