package survey

import "clampline/diagram"

// way returns the feeders between a part and the board before it, the last one first,
// and that board, or the supply where there is none.
func (b *building) way(p part) (run []diagram.ID, from part) {
	from = p
	for node := b.topology.Node(p); node != nil && node.Up != nil; node = node.Up {
		if node.Feeder != "" {
			run = append(run, node.Feeder)
		}
		from, _ = b.doc.Part(node.Up.At.Part)
		if from.Kind.IsBoard() && from.ID != p.ID {
			break
		}
	}
	return run, from
}

// loadsByBoard returns the loads that hang on each board with no other one between.
func (b *building) loadsByBoard() map[diagram.ID][]part {
	out := map[diagram.ID][]part{}
	for p := range b.doc.Parts() {
		if p.Kind == diagram.Load {
			_, from := b.way(p)
			out[from.ID] = append(out[from.ID], p)
		}
	}
	return out
}

// wire adds to the sheet of a board what is asked of its wiring, its loads and the
// supply that comes to it.
func (b *building) wire(sheet *Sheet, forms [formCount]form, board part, on []part) {
	run, from := b.way(board)
	if from.Kind == diagram.Supply {
		sheet.Supplies = append(sheet.Supplies, b.lines(forms[supplies], about(from)))
	}
	for _, load := range on {
		sheet.Loads = append(sheet.Loads, b.lines(forms[loads], about(load)))
		own, _ := b.way(load)
		run = append(run, own...)
	}
	for _, id := range run {
		f, _ := b.doc.Feeder(id)
		sheet.Feeders = append(sheet.Feeders, b.lines(forms[feeders], subject{feeder: f}))
	}
}
