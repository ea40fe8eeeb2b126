package details

import (
	"cmp"
	"slices"

	"fyne.io/fyne/v2/container"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

type protector = diagram.Protector

// protectorRows returns the fields of a protector.
func protectorRows(c unit.Convention) []row[protector] {
	return slices.Concat(
		[]row[protector]{
			text("Name", func(p *protector) *string { return &p.Name }),
			choice("Type or class", plain("not known", diagram.Types()...), func(p *protector) *diagram.Type { return &p.Type }),
			toggle("Outside the board", func(p *protector) *bool { return &p.External }),
		},
		leadRows(c),
		[]row[protector]{heading[protector]("Rating in each mode")},
		ratingRows(c),
		[]row[protector]{heading[protector]("Made for")},
		systemRows("not known", c, func(p *protector) *diagram.System { return &p.System }),
		currentRows(),
		[]row[protector]{heading[protector](remarks), paragraph("Note", func(p *protector) *string { return &p.Note })},
	)
}

func leadRows(c unit.Convention) []row[protector] {
	leads := func(p *protector) *diagram.Leads { return &p.Leads }
	earth := "Earth lead"
	if c == unit.NorthAmerican {
		earth = "Ground lead"
	}
	runs := []option[diagram.Run]{{diagram.Separate, "apart"}, {diagram.Bundled, "bundled"}, {diagram.Twisted, "twisted"}}
	return []row[protector]{
		heading[protector]("Leads"),
		allLeadsRow(),
		slide("change all leads", func(p protector) float64 { return p.Leads.Phase.Length }, setAllLeads),
		length("Phase lead", unit.LeadLength, func(p *protector) *float64 { return &leads(p).Phase.Length }).usual(diagram.UsualLeadLength),
		length("Neutral lead", unit.LeadLength, func(p *protector) *float64 { return &leads(p).Neutral.Length }).usual(diagram.UsualLeadLength),
		length(earth, unit.LeadLength, func(p *protector) *float64 { return &leads(p).Earth.Length }).usual(diagram.UsualLeadLength),
		quantity("Phase size", unit.Area, func(p *protector) *float64 { return &leads(p).Phase.Area }).usual(diagram.UsualLeadSize),
		quantity("Neutral size", unit.Area, func(p *protector) *float64 { return &leads(p).Neutral.Area }).usual(diagram.UsualLeadSize),
		quantity(earth+" size", unit.Area, func(p *protector) *float64 { return &leads(p).Earth.Area }).usual(diagram.UsualLeadSize),
		choiceUsual("Leads run", runs, func(p *protector) *diagram.Run { return &leads(p).Run }),
		count("Sharp bends", 10_000, func(p *protector) *int { return &leads(p).Bends }).installed(),
		count("Coils", 10_000, func(p *protector) *int { return &leads(p).Coils }).installed(),
		toggle("in a steel raceway", func(p *protector) *bool { return &leads(p).Steel }).labelled(earth + " runs").installed(),
		toggle("bonded at both ends", func(p *protector) *bool { return &leads(p).SteelBonded }).when(func(p protector) bool { return p.Leads.Steel }).installed(),
	}
}

// allLeadsRow sets the length of every lead. It is empty where they differ.
func allLeadsRow() row[protector] {
	return typedIn("All leads", unit.LeadLength,
		func(p protector, c unit.Convention) string {
			length := p.Leads.Phase.Length
			if p.Leads.Neutral.Length != length || p.Leads.Earth.Length != length {
				return ""
			}
			return quantityText(length, unit.LeadLength, c)
		},
		func(p *protector, s string, c unit.Convention) error {
			v, err := parseLength(s, unit.LeadLength, c)
			if err == nil {
				setAllLeads(p, v)
			}
			return err
		}).in(unit.LeadLength).hint("not all alike").with(short).example(diagram.UsualLeadLength)
}

func setAllLeads(p *protector, length float64) {
	p.Leads.Phase.Length, p.Leads.Neutral.Length, p.Leads.Earth.Length = length, length, length
}

func ratingRows(c unit.Convention) []row[protector] {
	ratings := []option[diagram.Rating]{
		{diagram.VPR, "VPR, with 6 in of lead"},
		{diagram.Up, "Up, at its terminals"},
	}
	rows := []row[protector]{
		choiceUsual("Stated as", ratings, func(p *protector) *diagram.Rating { return &p.Rating }),
		{label: "Mode", build: func(t target[protector], _ func(string)) control {
			labels := container.NewGridWithColumns(2, look.NewFaint("VPR or Up"), look.NewFaint("MCOV or Uc"))
			return control{object: labels}
		}},
	}
	for _, mode := range diagram.Modes() {
		rows = append(rows, modeRow(mode, c))
	}
	return append(rows, gapRow(c))
}

// modeRow edits what the protector has in one mode: level and continuous
// voltage. An empty level means that the mode is not connected.
func modeRow(mode diagram.Mode, c unit.Convention) row[protector] {
	rating := func(p *protector) *diagram.ModeRating { return &p.Modes[mode] }
	name := unit.ModeWord(mode.String(), c)
	level := quantityOf(name+" level", unit.Voltage,
		func(p protector) float64 {
			if !p.Modes[mode].Connected {
				return 0
			}
			return p.Modes[mode].Level
		},
		func(p *protector, v float64) { rating(p).Connected, rating(p).Level = v > 0, v }).hint("none")
	highest := quantity(name+" continuous voltage", unit.Voltage, func(p *protector) *float64 { return &rating(p).MCOV })
	level, highest = level.usual(diagram.UsualLevel), highest.usual(diagram.UsualMCOV)
	return row[protector]{
		label: name,
		mark:  func(p protector, c unit.Convention) string { return cmp.Or(level.mark(p, c), highest.mark(p, c)) },
		build: func(t target[protector], tell func(string)) control {
			return together([]control{level.build(t, tell), highest.build(t, tell)})
		},
	}
}

// gapRow says in which modes there is a gap or gas tube: a check for each, on
// lines of their own, since the columns of a mode leave no room for a third.
func gapRow(c unit.Convention) row[protector] {
	return row[protector]{label: "Gap or gas tube", build: func(t target[protector], tell func(string)) control {
		checks := make([]control, diagram.ModeCount)
		for i, mode := range diagram.Modes() {
			word := unit.ModeWord(mode.String(), c)
			checks[i] = check(word, "change gap "+word, func(p *protector) *bool { return &p.Modes[mode].Switching }).build(t, tell)
		}
		return together(checks)
	}}
}

// together lays controls out in two columns.
func together(controls []control) control {
	grid := container.NewGridWithColumns(2)
	out := control{object: grid}
	for _, c := range controls {
		if e, ok := c.object.(*entry); ok && !e.narrow {
			e.narrow = true
			e.hint(e.words)
		}
		grid.Add(c.object)
		out.fields = append(out.fields, c.fields...)
	}
	out.refresh = func() {
		for _, c := range controls {
			c.refresh()
		}
	}
	out.commit = func() {
		for _, c := range controls {
			if c.commit != nil {
				c.commit()
			}
		}
	}
	return out
}

func currentRows() []row[protector] {
	return []row[protector]{
		heading[protector]("Currents"),
		quantity("In", unit.LargeCurrent, func(p *protector) *float64 { return &p.In }).usual(diagram.UsualIn),
		quantity("Imax", unit.LargeCurrent, func(p *protector) *float64 { return &p.Imax }).usual(diagram.UsualImax),
		quantity("Iimp", unit.LargeCurrent, func(p *protector) *float64 { return &p.Iimp }).usual(diagram.UsualIimp),
		quantity("SCCR", unit.LargeCurrent, func(p *protector) *float64 { return &p.SCCR }).usual(diagram.UsualSCCR),
		heading[protector]("Breaker"),
		quantity("Rated current", unit.Current, func(p *protector) *float64 { return &p.Breaker.Rated }).usual(diagram.UsualBreaker).hint("none, or not known"),
		count("Poles", 4, func(p *protector) *int { return &p.Breaker.Poles }),
		toggle("Breaker shared with other loads", func(p *protector) *bool { return &p.Breaker.Shared }).installed(),
		quantity("Needs at least", unit.Current, func(p *protector) *float64 { return &p.Breaker.Least }).usual(diagram.UsualBreaker).hint("not stated"),
		quantity("Allows at most", unit.Current, func(p *protector) *float64 { return &p.Breaker.Most }).usual(diagram.UsualBreaker).hint("not stated"),
		heading[protector]("Cost"),
		quantity("Price", unit.Money, func(p *protector) *float64 { return &p.Price }),
		quantity("Labour", unit.Hours, func(p *protector) *float64 { return &p.Hours }).usual(diagram.UsualHours),
	}
}
