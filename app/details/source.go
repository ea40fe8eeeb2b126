package details

import (
	"cmp"
	"slices"
	"strings"

	"fyne.io/fyne/v2/container"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

func source(p *part) *diagram.SourceData { return &p.Source }

// supplyRows returns the fields of a supply.
func supplyRows(c unit.Convention, document func() *diagram.Document) []row[part] {
	return slices.Concat(
		systemRows("not known", c, func(p *part) *diagram.System { return &p.System }),
		faultRows(c),
		[]row[part]{
			heading[part]("Transformer of the utility"),
			quantity("Rating", unit.Power, func(p *part) *float64 { return &source(p).Power }).usual(diagram.UsualPower),
			quantity("Impedance", unit.Percent, func(p *part) *float64 { return &source(p).Reactance }).usual(diagram.UsualImpedance),
		},
		exposureRows(c, document),
	)
}

// generatorRows returns the fields of a generator.
func generatorRows(c unit.Convention) []row[part] {
	return slices.Concat(
		systemRows("not known", c, func(p *part) *diagram.System { return &p.System }),
		[]row[part]{
			quantity("Rating", unit.Power, func(p *part) *float64 { return &source(p).Power }).usual(diagram.UsualPower),
			quantity("Subtransient X", unit.Percent, func(p *part) *float64 { return &source(p).Reactance }).usual(diagram.UsualSubtransient),
		},
		faultRows(c),
	)
}

// faultRows edit what current a source drives into a fault at its terminals.
func faultRows(c unit.Convention) []row[part] {
	return []row[part]{
		heading[part]("Fault current"),
		quantity("Three-phase fault current", unit.LargeCurrent, func(p *part) *float64 { return &source(p).FaultCurrent }).usual(diagram.UsualFault),
		quantity("Line-to-"+unit.EarthWord(c)+" fault current", unit.LargeCurrent, func(p *part) *float64 { return &source(p).EarthFaultCurrent }).usual(diagram.UsualEarthFault),
		quantity("X / R", unit.Ratio, func(p *part) *float64 { return &source(p).XR }).usual(diagram.UsualXR),
	}
}

// exposureRows edit what the surroundings of a supply bring, and whom its
// building serves. What only the rules of IEC ask for is not shown where they do
// not count.
func exposureRows(c unit.Convention, document func() *diagram.Document) []row[part] {
	data := func(p *part) *diagram.Exposure { return &p.Exposure }
	iec := func(part) bool { return document().FollowsIEC() }
	mayDecline := func(p part) bool { return data(&p).Occupancy == diagram.Dwelling && iec(p) }
	return []row[part]{
		heading[part]("Exposure"),
		choice(occupancyLabel(c), occupancies(), func(p *part) *diagram.Occupancy { return &data(p).Occupancy }),
		toggle("Owner has declined", func(p *part) *bool { return &data(p).Declined }).when(mayDecline),
		choice("Surge exposure", plain("not known", diagram.SurgeExposures()...), func(p *part) *diagram.SurgeExposure { return &data(p).Surges }),
		choice("Lightning protection", lightning(), func(p *part) *diagram.LightningSystem { return &data(p).Lightning }),
		choice("Surroundings", plain("not known", diagram.SurroundingsKinds()...), func(p *part) *diagram.Surroundings { return &data(p).Surroundings }).when(iec),
		quantity("Lightning flashes", unit.FlashDensity, func(p *part) *float64 { return &data(p).FlashDensity }).usual(diagram.UsualFlashes).when(iec),
		linesHead().when(iec),
		linesRow("Overhead", func(e *diagram.Exposure) [2]*float64 { return [2]*float64{&e.LowOverhead, &e.HighOverhead} }).when(iec),
		linesRow("Cable", func(e *diagram.Exposure) [2]*float64 { return [2]*float64{&e.LowCable, &e.HighCable} }).when(iec),
		toggle("Ends at a surge arrester", func(p *part) *bool { return &data(p).LinesEnd }).when(iec),
	}
}

// sleepingRooms is what a person calls them in few words.
const sleepingRooms = "hotel, dormitory, ward"

func occupancyLabel(c unit.Convention) string {
	if c == unit.IEC {
		return "Building serves"
	}
	return "Occupancy"
}

func occupancies() []option[diagram.Occupancy] {
	words := map[diagram.Occupancy]string{
		diagram.SleepingRooms: sleepingRooms,
		diagram.HumanLife:     "medical care, safety",
		diagram.PublicService: "public service, heritage",
		diagram.Assembly:      "many people in one place",
		diagram.OtherUse:      "something else",
	}
	out := plain("not known", diagram.Occupancies()...)
	for i, o := range out {
		if word, ok := words[o.value]; ok {
			out[i].label = word
		}
	}
	return out
}

func lightning() []option[diagram.LightningSystem] {
	out := plain("not known", diagram.LightningSystems()...)
	for i, o := range out {
		if o.value == diagram.LightningUnknown {
			out[i].label = "present, level not known"
		}
	}
	return out
}

// linesHead stands above the lengths of the lines upstream.
func linesHead() row[part] {
	return row[part]{label: "Lines upstream", build: func(target[part], func(string)) control {
		return control{object: container.NewGridWithColumns(2, look.NewFaint("low voltage"), look.NewFaint("high voltage"))}
	}}
}

// linesRow edits the lengths of the low and of the high voltage line of a sort.
func linesRow(sort string, lengths func(*diagram.Exposure) [2]*float64) row[part] {
	entry := func(i int, level string) row[part] {
		return lineLength(strings.ToLower(sort)+" line, "+level, func(e *diagram.Exposure) *float64 { return lengths(e)[i] })
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
