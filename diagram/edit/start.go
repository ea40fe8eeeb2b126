package edit

import (
	"clampline/diagram"
	"clampline/diagram/geom"
	"clampline/diagram/unit"
)

// Start draws on a sheet what most sheets start from: a service with the usual
// system of the convention, the main switchboard, and the feeder between them.
func (e *Editor) Start() error {
	system := sourceSystem(e.doc, e.options.Scene.Convention)
	return e.Change("start", func(tx *diagram.Tx) error {
		Starter(tx, system, e.options.Scene.Convention)
		return nil
	})
}

// Starter puts a service with the system, the main switchboard, and a feeder of
// the usual length between them on an empty sheet.
func Starter(tx *diagram.Tx, system diagram.System, c unit.Convention) {
	supply := diagram.Part{ID: tx.NewPartID(diagram.Supply), Kind: diagram.Supply, Name: "Service", At: geom.Pt(100, 30), System: system}
	tx.SetPart(supply)
	board := diagram.Part{
		ID: tx.NewPartID(diagram.Switchboard), Kind: diagram.Switchboard, Name: "Main switchboard", At: geom.Pt(100, 60),
		Board:     diagram.BoardData{Service: true, Bonded: system.Neutral && system.Earthing == diagram.Solid},
		Withstand: usualWithstand(diagram.Switchboard),
	}
	tx.SetPart(board)
	tx.SetFeeder(diagram.Feeder{
		ID: tx.NewFeederID(), From: diagram.End{Part: supply.ID}, To: diagram.End{Part: board.ID}, Length: newLength(c),
	})
}
