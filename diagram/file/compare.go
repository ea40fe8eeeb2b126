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
// first: for each record what came, what went, and which members changed, under
// the names that they have in a file and in its units.
func Differences(first, second *diagram.Document) []string {
	var out []string
	infos := func(doc *diagram.Document) iter.Seq[diagram.Info] { return slices.Values([]diagram.Info{doc.Info()}) }
	out = append(out, differences("sheet", infos(first), infos(second), sheetFields)...)
	out = append(out, differences("plan", slices.Values(first.Plans()), slices.Values(second.Plans()), planFields)...)
	out = append(out, differences("", first.Parts(), second.Parts(), partFields)...)
	out = append(out, differences("feeder", first.Feeders(), second.Feeders(), feederFields)...)
	out = append(out, differences("protector", first.Protectors(), second.Protectors(), protectorFields)...)
	return append(out, differences("surge case", slices.Values(first.Surges()), slices.Values(second.Surges()), surgeFields)...)
}

// sheetFields are those of the sheet itself, with what other programs keep there.
func sheetFields(f fields, v *diagram.Info) {
	infoFields(f, v)
	f.text("other members", v.Extra, nil)
}

// differences compares two lists of records; a noun that is empty is that of
// the kind of the record.
func differences[R any](noun string, first, second iter.Seq[R], describe func(fields, *R)) []string {
	was, is := recordsOf(first, describe), recordsOf(second, describe)
	ids := maps.Clone(was)
	maps.Copy(ids, is)
	var out []string
	for _, id := range slices.SortedFunc(maps.Keys(ids), func(a, b string) int { return diagram.CompareID(diagram.ID(a), diagram.ID(b)) }) {
		before, wasThere := was[id]
		after, isThere := is[id]
		switch {
		case !wasThere:
			out = append(out, "added: "+recordName(noun, id, after))
		case !isThere:
			out = append(out, "gone: "+recordName(noun, id, before))
		default:
			if changed := changedMembers(before, after); len(changed) > 0 {
				out = append(out, recordName(noun, id, before)+": "+strings.Join(changed, ", "))
			}
		}
	}
	return out
}

// recordsOf returns the members of each record by its id, those of groups under
// names such as "board.rating".
func recordsOf[R any](records iter.Seq[R], describe func(fields, *R)) map[string]map[string]string {
	out := map[string]map[string]string{}
	for record := range records {
		w := &writer{}
		describe(w, &record)
		members := map[string]string{}
		flatten(members, "", w.out)
		out[members["id"]] = members
	}
	return out
}

func flatten(into map[string]string, before string, o object) {
	for _, m := range o {
		switch value := m.value.(type) {
		case object:
			flatten(into, before+m.name+".", value)
		case string:
			into[before+m.name] = value
		default:
			into[before+m.name] = string(appendCompact(nil, value))
		}
	}
}

func recordName(noun, id string, members map[string]string) string {
	noun = cmp.Or(noun, members["kind"])
	out := noun
	if name := members["name"]; name != "" && name != id {
		out += " " + short(name)
	}
	if id != "" {
		out += " (" + short(id) + ")"
	}
	return out
}

// changedMembers lists what differs, in the order of the names.
func changedMembers(before, after map[string]string) []string {
	names := maps.Clone(before)
	maps.Copy(names, after)
	var out []string
	for _, name := range slices.Sorted(maps.Keys(names)) {
		if before[name] != after[name] {
			out = append(out, fmt.Sprintf("%s %s → %s", name, orNothing(before[name]), orNothing(after[name])))
		}
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
