package details

import (
	"cmp"

	"fyne.io/fyne/v2/container"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

// lineRows edit the lines upstream of a supply, for which only the rules of IEC
// ask.
func lineRows(document func() *diagram.Document) []row[part] {
	iec := func(part) bool { return document().FollowsIEC() }
	return []row[part]{
		linesHead().when(iec).explained(linesHelp),
		linesRow("overhead", func(e *diagram.Exposure) [2]*float64 { return [2]*float64{&e.LowOverhead, &e.HighOverhead} }).when(iec).explained(linesHelp),
		linesRow("cable", func(e *diagram.Exposure) [2]*float64 { return [2]*float64{&e.LowCable, &e.HighCable} }).when(iec).explained(linesHelp),
	}
}

const linesHelp = "Length of the lines that feed the building, to the nearest overvoltage device or one kilometre. All four left empty: not known."

// linesHead stands above the lengths of the lines upstream.
func linesHead() row[part] {
	return row[part]{label: "Lines upstream", build: func(target[part], func(string)) control {
		return control{object: container.NewGridWithColumns(2, look.NewFaint("low voltage"), look.NewFaint("high voltage"))}
	}}
}

// linesRow edits the lengths of the low and of the high voltage line of a sort.
func linesRow(sort string, lengths func(*diagram.Exposure) [2]*float64) row[part] {
	entry := func(i int, level string) row[part] {
		return lineLength(sort+" line, "+level, func(e *diagram.Exposure) *float64 { return lengths(e)[i] })
	}
	low, high := entry(0, "low voltage"), entry(1, "high voltage")
	return row[part]{label: sort, build: func(t target[part], tell func(string)) control {
		return together([]control{low.build(t, tell), high.build(t, tell)})
	}, mark: func(p part, c unit.Convention) string {
		usual, lines := diagram.UsualUpstreamLine.Usual(), lengths(&p.Exposure)
		return cmp.Or(usual.Mark(*lines[0], c), usual.Mark(*lines[1], c))
	}}
}

// lineLength is the length of one line upstream. Where all of them are 0 they
// are not known; else a line of no length is not there.
func lineLength(label string, length func(*diagram.Exposure) *float64) row[part] {
	out := typedIn(label, unit.Length,
		func(p part, c unit.Convention) string {
			if *length(&p.Exposure) == 0 {
				return ""
			}
			return quantityText(*length(&p.Exposure), unit.Length, c)
		},
		func(p *part, s string, c unit.Convention) error {
			v, err := parseQuantity(s, unit.Length, c)
			if err == nil {
				*length(&p.Exposure) = v
			}
			return err
		}).in(unit.Length).with(short)
	out.value = func(p part) float64 { return *length(&p.Exposure) }
	build := out.build
	out.build = func(t target[part], tell func(string)) control {
		c := build(t, tell)
		field, refresh := c.object.(*entry), c.refresh
		c.refresh = func() {
			refresh()
			hintLine(field, t)
		}
		hintLine(field, t)
		return c
	}
	return out
}

func hintLine(field *entry, t target[part]) {
	part, _ := t.get()
	words := "none"
	if e := part.Exposure; e.LowOverhead == 0 && e.LowCable == 0 && e.HighOverhead == 0 && e.HighCable == 0 {
		words = "not known"
	}
	field.hint(words)
}
