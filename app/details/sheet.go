package details

import (
	"clampline/diagram"
	"clampline/diagram/unit"
)

// infoRows returns the fields of the sheet as a whole.
func infoRows() []row[diagram.Info] {
	return []row[diagram.Info]{
		text("Title", func(i *diagram.Info) *string { return &i.Title }),
		text("Site", func(i *diagram.Info) *string { return &i.Site }),
		text("Drawn by", func(i *diagram.Info) *string { return &i.Author }),
		paragraph("Note", func(i *diagram.Info) *string { return &i.Note }),
	}
}

// codesRows returns the fields of the rules by which the sheet is checked.
// Those of the other practice are not shown.
func codesRows(document func() *diagram.Document) []row[diagram.Info] {
	codes := func(i *diagram.Info) *diagram.Codes { return &i.Codes }
	iec := func(i diagram.Info) bool { return document().FollowsIEC() }
	nec := func(i diagram.Info) bool { return !iec(i) }
	return []row[diagram.Info]{
		heading[diagram.Info]("Rules"),
		choiceFrom("Practice", func(unit.Convention) []option[diagram.Practice] { return practices(document()) },
			func(i diagram.Info) diagram.Practice { return i.Codes.Practice },
			func(i *diagram.Info, p diagram.Practice) { i.Codes.Practice = p }),
		choice("NEC edition", necEditions(), func(i *diagram.Info) *diagram.NECEdition { return &codes(i).NEC }).when(nec),
		choiceUsual("Need for protection", riskMethods(), func(i *diagram.Info) *diagram.RiskMethod { return &codes(i).Risk }).when(iec),
		choiceUsual("Least Uc", ucTables(), func(i *diagram.Info) *diagram.UcTable { return &codes(i).Uc }).when(iec),
		choiceUsual("Fault currents", faultMethods(), func(i *diagram.Info) *diagram.FaultMethod { return &codes(i).Fault }),
		quantity("Impedance tolerance", unit.Percent, func(i *diagram.Info) *float64 { return &codes(i).Tolerance }).hint("as on the nameplates"),
		remark[diagram.Info]("By the tolerance the impedance of a transformer may lie below its nameplate, and more current flows into a fault."),
	}
}

func practices(doc *diagram.Document) []option[diagram.Practice] {
	suggested := "by the supply (NEC)"
	if doc.UsesIEC() {
		suggested = "by the supply (IEC)"
	}
	return []option[diagram.Practice]{{"", suggested}, {diagram.NECPractice, "NFPA 70 and UL 1449"}, {diagram.IECPractice, "IEC 60364 and 61643"}}
}

func necEditions() []option[diagram.NECEdition] {
	known := diagram.NECEditions()
	return plain("newest known here ("+string(known[0])+")", known...)
}

func ucTables() []option[diagram.UcTable] {
	return []option[diagram.UcTable]{{diagram.UcNewer, "by the table from 2015"}, {diagram.UcOlder, "by the older table"}}
}

func riskMethods() []option[diagram.RiskMethod] {
	return []option[diagram.RiskMethod]{{diagram.ByRiskLevel, "calculated risk level"}, {diagram.ByDefault, "unless declined"}}
}

func faultMethods() []option[diagram.FaultMethod] {
	return []option[diagram.FaultMethod]{{diagram.ComplexSum, "by impedances"}, {diagram.PointToPoint, "by the point-to-point method"}}
}

// planRows returns the fields of a plan.
func planRows() []row[diagram.Plan] {
	return []row[diagram.Plan]{
		text("Name", func(p *diagram.Plan) *string { return &p.Name }),
		paragraph("Note", func(p *diagram.Plan) *string { return &p.Note }),
	}
}
