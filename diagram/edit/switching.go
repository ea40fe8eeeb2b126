package edit

import "clampline/diagram"

// CanSwitch reports whether something selected can be opened or thrown: a
// feeder with a switch at its head, or a transfer switch.
func (e *Editor) CanSwitch() bool {
	feeders, transfers := e.switches()
	return len(feeders)+len(transfers) > 0
}

// Switch opens the closed switches at the heads of the selected feeders and
// closes the open ones, and throws the selected transfer switches.
func (e *Editor) Switch() error {
	feeders, transfers := e.switches()
	return e.Change(e.switchLabel(), func(tx *diagram.Tx) error {
		for _, feeder := range feeders {
			feeder.Switch.Open = !feeder.Switch.Open
			tx.SetFeeder(feeder)
		}
		for _, part := range transfers {
			part.Transfer.Position = thrown(part.Transfer)
			tx.SetPart(part)
		}
		return nil
	})
}

// thrown returns the position that the transfer switch does not have.
func thrown(t diagram.TransferData) diagram.Position {
	if t.Position == diagram.ToEmergency {
		return diagram.ToNormal
	}
	return diagram.ToEmergency
}

func (e *Editor) switches() (feeders []diagram.Feeder, transfers []diagram.Part) {
	for _, feeder := range e.selectedFeeders() {
		if feeder.Switch.Kind != "" {
			feeders = append(feeders, feeder)
		}
	}
	for _, part := range e.selectedParts() {
		if part.Kind == diagram.TransferSwitch {
			transfers = append(transfers, part)
		}
	}
	return feeders, transfers
}

func (e *Editor) switchLabel() string {
	feeders, transfers := e.switches()
	switch {
	case len(feeders) == 1 && len(transfers) == 0 && feeders[0].Switch.Open:
		return "close " + e.describe([]diagram.ID{feeders[0].ID})
	case len(feeders) == 1 && len(transfers) == 0:
		return "open " + e.describe([]diagram.ID{feeders[0].ID})
	case len(transfers) == 1 && len(feeders) == 0:
		return "throw " + e.describe([]diagram.ID{transfers[0].ID})
	}
	return "switch"
}
