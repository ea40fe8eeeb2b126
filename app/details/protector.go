package details

import (
	"cmp"

	"fyne.io/fyne/v2/container"

	"clampline/app/look"
	"clampline/diagram"
	"clampline/diagram/unit"
)

type protector = diagram.Protector

// protectorRows returns the fields of a protector.
func protectorRows(c unit.Convention) []row[protector] {
	fields, earth := diagram.ProtectorFields(), unit.EarthWord(c)
	installed := alter(row[protector].installed)
	rows := own[protector]{
		"all leads": func(row[protector]) []row[protector] {
			return helped([]row[protector]{allLeadsRow(), slide("change all leads", func(p protector) float64 { return p.Leads.Phase.Length }, setAllLeads)}, allLeadsHelp)
		},
		"modes":       func(row[protector]) []row[protector] { return helped(modeRows(c), modesHelp) },
		"system":      systemRows(fields, "system", notKnown, c, func(p *protector) *diagram.System { return &p.System }),
		"leads.bends": installed,
		"leads.coils": installed,
		"leads.steel": func(row[protector]) []row[protector] {
			steel, bonded := diagram.FieldOf(fields, "leads.steel"), diagram.FieldOf(fields, "leads.steelBonded")
			within := func(f *diagram.Field[protector]) row[protector] { // a sentence that the label begins
				return check(f.Title(c), "change "+f.Title(c), f.Flag).explained(helpOf(f, c))
			}
			return []row[protector]{
				within(steel).labelled(earth + " lead runs").installed(),
				within(bonded).when(func(p protector) bool { return p.Leads.Steel }).installed(),
			}
		},
		"leads.steelBonded": func(row[protector]) []row[protector] { return nil }, // stands with the steel
		"breaker.shared":    installed,
	}
	return inForm(fields, c, keys{
		"name", "type", "external",
		"#Leads", "all leads", "leads.phase.length", "leads.neutral.length", "leads.earth.length", "leads.phase.area", "leads.neutral.area", "leads.earth.area",
		"leads.run", "leads.bends", "leads.coils", "leads.steel", "leads.steelBonded",
		"#Rating in each mode", "rating", "modes",
		"#Made for", "system",
		"#Currents", "in", "imax", "iimp", "sccr",
		"#Breaker", "breaker.rated", "breaker.poles", "breaker.shared", "breaker.least", "breaker.most",
		"#As built", "installed.date", "installed.by", "installed.measured", "installed.indicator", "installed.checked", "installed.photos",
		"#Cost", "price", "hours", "catalogue",
		"#" + remarks, "note",
	}, rows)
}

const (
	allLeadsHelp = "Sets the length of every lead at once, each along its way from the bus to the protector. Empty where they differ."
	modesHelp    = "What the nameplate states between two conductors: the voltage that is let through (VPR or Up), and the highest that is borne for good (MCOV or Uc). Without the first, nothing protects there."
	gapHelp      = "What protects there is a spark gap or gas tube rather than a varistor."
)

// allLeadsRow sets the length of every lead. It is empty where they differ.
func allLeadsRow() row[protector] {
	return typedIn("all leads", unit.LeadLength,
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

// modeRows edit what the protector has in each mode.
func modeRows(c unit.Convention) []row[protector] {
	rows := []row[protector]{
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
	level := quantityOf(name+" VPR or Up", unit.Voltage,
		func(p protector) float64 {
			if !p.Modes[mode].Connected {
				return 0
			}
			return p.Modes[mode].Level
		},
		func(p *protector, v float64) { rating(p).Connected, rating(p).Level = v > 0, v }).hint("none")
	highest := quantity(name+" MCOV or Uc", unit.Voltage, func(p *protector) *float64 { return &rating(p).MCOV })
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
	return row[protector]{label: "Gap or gas tube", help: gapHelp, build: func(t target[protector], tell func(string)) control {
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
