package details

import "clampline/diagram"

// infoRows returns the fields of the sheet as a whole.
func infoRows() []row[diagram.Info] {
	return []row[diagram.Info]{
		text("Title", func(i *diagram.Info) *string { return &i.Title }),
		text("Site", func(i *diagram.Info) *string { return &i.Site }),
		text("Drawn by", func(i *diagram.Info) *string { return &i.Author }),
		paragraph("Note", func(i *diagram.Info) *string { return &i.Note }),
	}
}

// planRows returns the fields of a plan.
func planRows() []row[diagram.Plan] {
	return []row[diagram.Plan]{
		text("Name", func(p *diagram.Plan) *string { return &p.Name }),
		paragraph("Note", func(p *diagram.Plan) *string { return &p.Note }),
	}
}
