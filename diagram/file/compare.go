package file

import (
	"cmp"
	"fmt"
	"iter"
	"maps"
	"slices"
	"strings"

	"clampline/diagram"
	"clampline/diagram/unit"
)

// Differences says in one line each how the second document differs from the
// first: for each record what came, what went, and which fields changed, under
// the names that forms have and in the units of the second document.
func Differences(first, second *diagram.Document) []string {
	c := unit.NorthAmerican
	if second.FollowsIEC() {
		c = unit.IEC
	}
	infos := func(doc *diagram.Document) iter.Seq[diagram.Info] { return slices.Values([]diagram.Info{doc.Info()}) }
	nobody := diagram.ID("")
	return slices.Concat(
		comparePlanShown(first, second),
		compare(c, "sheet", infos(first), infos(second), diagram.InfoFields(), func(i *diagram.Info) (*diagram.ID, *string) { return &nobody, &i.Extra }),
		compare(c, "plan", slices.Values(first.Plans()), slices.Values(second.Plans()), diagram.PlanFields(), ofPlan),
		compare(c, "", first.Parts(), second.Parts(), diagram.PartFields(), ofPart),
		compare(c, "feeder", first.Feeders(), second.Feeders(), diagram.FeederFields(), ofFeeder),
		compare(c, "protector", first.Protectors(), second.Protectors(), diagram.ProtectorFields(), ofProtector),
		compare(c, "surge case", slices.Values(first.Surges()), slices.Values(second.Surges()), diagram.SurgeFields(), ofSurge),
		compare(c, "set aside", first.Asides(), second.Asides(), diagram.AsideFields(), ofAside),
	)
}

// comparePlanShown tells where another plan was looked at last.
func comparePlanShown(first, second *diagram.Document) []string {
	was, is := first.Shown(), second.Shown()
	atFirst := was == first.Plans()[0].ID && is == second.Plans()[0].ID // of which a file says nothing
	if was == is || atFirst {
		return nil
	}
	return []string{"plan shown: " + short(first.NameOf(was)) + " → " + short(second.NameOf(is))}
}

// compare compares two lists of records; a noun that is empty is that of the kind
// of the record.
func compare[R any](c unit.Convention, noun string, first, second iter.Seq[R], fields []diagram.Field[R], of identity[R]) []string {
	was, is := recordsByID(first, of), recordsByID(second, of)
	ids := maps.Clone(was)
	maps.Copy(ids, is)
	var out []string
	for _, id := range slices.SortedFunc(maps.Keys(ids), diagram.CompareID) {
		before, wasThere := was[id]
		after, isThere := is[id]
		switch {
		case !wasThere:
			out = append(out, "added: "+recordName(noun, id, fields, &after))
		case !isThere:
			out = append(out, "gone: "+recordName(noun, id, fields, &before))
		default:
			if changed := changedFields(c, fields, of, &before, &after); len(changed) > 0 {
				out = append(out, recordName(noun, id, fields, &before)+": "+strings.Join(changed, ", "))
			}
		}
	}
	return out
}

func recordsByID[R any](records iter.Seq[R], of identity[R]) map[diagram.ID]R {
	out := map[diagram.ID]R{}
	for record := range records {
		id, _ := of(&record)
		out[*id] = record
	}
	return out
}

func recordName[R any](noun string, id diagram.ID, fields []diagram.Field[R], r *R) string {
	name := ""
	for i := range fields {
		switch fields[i].Key {
		case "kind":
			noun = cmp.Or(noun, fields[i].Text(r))
		case "name":
			name = fields[i].Text(r)
		}
	}
	out := noun
	if name != "" && name != string(id) {
		out += " " + short(name)
	}
	if id != "" {
		out += " (" + short(string(id)) + ")"
	}
	return out
}

// changedFields lists what differs, in the order of the fields.
func changedFields[R any](c unit.Convention, fields []diagram.Field[R], of identity[R], before, after *R) []string {
	var out []string
	add := func(name, was, is string) {
		out = append(out, fmt.Sprintf("%s %s → %s", name, orNothing(was), orNothing(is)))
	}
	for _, f := range diagram.Changed(fields, before, after) {
		add(f.Name(c), f.Said(before, c), f.Said(after, c))
	}
	_, was := of(before)
	if _, is := of(after); *was != *is {
		add("other members", *was, *is)
	}
	return out
}

func orNothing(text string) string { return cmp.Or(short(text), "nothing") }

// short cuts a text down to what one can take in at a glance.
func short(text string) string {
	const most = 40
	runes := []rune(unit.Visible(text))
	if len(runes) > most {
		return string(runes[:most]) + "…"
	}
	return string(runes)
}
