package edit

import (
	"strconv"

	"clampline/diagram"
	"clampline/diagram/unit"
)

func editCommands() []Command {
	return []Command{
		{"undo", "Undo", MenuEdit, keys(controlKey("Z")), (*Editor).CanUndo, plain((*Editor).Undo)},
		{"redo", "Redo", MenuEdit, keys(controlKey("Y"), controlShiftKey("Z")), (*Editor).CanRedo, plain((*Editor).Redo)},
		{"cut", "Cut", MenuEdit, keys(controlKey("X")), canCopy, (*Editor).cutToClipboard},
		{"copy", "Copy", MenuEdit, keys(controlKey("C")), canCopy, (*Editor).copyToClipboard},
		{"paste", "Paste", MenuEdit, keys(controlKey("V")), always, (*Editor).pasteFromClipboard},
		{"duplicate", "Duplicate", MenuEdit, keys(controlKey("D")), canCopy, (*Editor).Duplicate},
		{"delete", "Delete", MenuEdit, keys(key(KeyDelete), key(KeyBackspace)), hasSelection, (*Editor).Delete},
		{"select all", "Select all", MenuEdit, keys(controlKey("A")), always, plain((*Editor).SelectAll)},
		{"select boards", "Select all boards", MenuEdit, keys(Key{Control | Alt, "B"}), always, plain((*Editor).selectBoards)},
		{"select protectors", "Select all protectors", MenuEdit, keys(Key{Control | Alt, "P"}), always, plain((*Editor).selectProtectors)},
		{"select none", "Select none", MenuEdit, keys(controlShiftKey("A")), hasSelection, plain(func(e *Editor) { e.Select() })},
		{"details", "Details", MenuEdit, keys(key(KeyEnter)), hasSelection, plain((*Editor).focusDetails)},
	}
}

// placeCommands returns the strip of parts: the kinds, on the digits, then
// what goes between and on them.
func placeCommands() []Command {
	var out []Command
	for i, kind := range diagram.Kinds() {
		out = append(out, Command{
			placeCommand(kind), unit.SentenceCase(string(kind)), MenuPlace, keys(key(strconv.Itoa(i + 1))),
			always, plain(func(e *Editor) { e.Arm(kind) }),
		})
	}
	return append(out,
		Command{commandConnect, "Feeder", MenuPlace, keys(key("C")), always, (*Editor).connectCommand},
		Command{commandAttach, "Protector", MenuPlace, keys(key("P")), always, (*Editor).attachCommand},
	)
}

// connectCommand connects two selected parts, or takes up the tool for it.
func (e *Editor) connectCommand() error {
	parts := e.selectedParts()
	if len(parts) != 2 || len(e.selected) != 2 {
		e.ArmFeeder()
		return nil
	}
	if parts[1].At.Y < parts[0].At.Y {
		parts[0], parts[1] = parts[1], parts[0] // what feeds stands above
	}
	_, err := e.Connect(parts[0].ID, parts[1].ID)
	return err
}

// attachCommand attaches a protector to the selected host, or takes up the
// tool for it.
func (e *Editor) attachCommand() error {
	if part, ok := e.onlyPart(); ok && part.Kind.TakesProtector() {
		_, err := e.AttachTo(part.ID)
		return err
	}
	e.ArmProtector()
	return nil
}

func arrangeCommands() []Command {
	align := func(name, label, key string, f func(*Editor) error) Command {
		return Command{name, label, MenuArrange, keys(altKey(key)), hasParts(2), f}
	}
	return []Command{
		{"rotate clockwise", "Rotate clockwise", MenuArrange, keys(key("R")), hasParts(1), func(e *Editor) error { return e.Rotate(1) }},
		{"rotate anticlockwise", "Rotate anticlockwise", MenuArrange, keys(shiftKey("R")), hasParts(1), func(e *Editor) error { return e.Rotate(-1) }},
		align("align left", "Align left", KeyLeft, (*Editor).AlignLeft),
		align("align centre", "Align centre", "C", (*Editor).AlignCentre),
		align("align top", "Align top", KeyUp, (*Editor).AlignTop),
		align("align middle", "Align middle", "M", (*Editor).AlignMiddle),
		{"distribute horizontally", "Distribute horizontally", MenuArrange, keys(altKey("H")), hasParts(3), (*Editor).DistributeHorizontally},
		{"distribute vertically", "Distribute vertically", MenuArrange, keys(altKey("V")), hasParts(3), (*Editor).DistributeVertically},
		{"switch", "Open or close", MenuArrange, keys(key("O")), (*Editor).CanSwitch, (*Editor).Switch},
	}
}

func viewCommands() []Command {
	return []Command{
		{"zoom in", "Zoom in", MenuView, keys(controlKey("="), controlShiftKey("="), controlKey("+")), always, plain((*Editor).ZoomIn)},
		{"zoom out", "Zoom out", MenuView, keys(controlKey("-")), always, plain((*Editor).ZoomOut)},
		{"zoom 100", "Zoom to 100 %", MenuView, keys(controlKey("0")), always, plain((*Editor).Zoom100)},
		{"zoom fit", "Zoom to fit", MenuView, keys(controlKey("1")), always, plain((*Editor).ZoomFit)},
		{"zoom selection", "Zoom to selection", MenuView, keys(controlKey("2")), hasSelection, plain((*Editor).ZoomToSelection)},
	}
}

func planCommands() []Command {
	several := func(e *Editor) bool { return len(e.doc.Plans()) > 1 }
	return []Command{
		{"next plan", "Next plan", MenuPlan, keys(controlKey(KeyPageDown)), several, plain(func(e *Editor) { e.stepPlan(1) })},
		{"previous plan", "Previous plan", MenuPlan, keys(controlKey(KeyPageUp)), several, plain(func(e *Editor) { e.stepPlan(-1) })},
		{"new plan", "New plan", MenuPlan, keys(controlShiftKey("P")), always, func(e *Editor) error {
			_, err := e.AddPlan("", "")
			return err
		}},
		{"duplicate plan", "Duplicate plan", MenuPlan, keys(controlShiftKey("D")), always, func(e *Editor) error {
			_, err := e.AddPlan("", e.plan)
			return err
		}},
		{"record", "Record what is built", MenuPlan, keys(controlShiftKey("Y")), always, (*Editor).BeginRecord},
		{"plan earlier", "Move plan earlier", MenuPlan, keys(Key{Control | Alt, KeyPageUp}), mayMovePlan(-1), func(e *Editor) error { return e.movePlan(-1) }},
		{"plan later", "Move plan later", MenuPlan, keys(Key{Control | Alt, KeyPageDown}), mayMovePlan(1), func(e *Editor) error { return e.movePlan(1) }},
		{"lock plan", "Lock plan", MenuPlan, keys(controlShiftKey("U")), func(e *Editor) bool { return !e.PlanIsLocked() }, func(e *Editor) error { return e.LockPlan(e.plan, true) }},
		{"remove plan", "Remove plan", MenuPlan, keys(controlShiftKey(KeyDelete)), several, func(e *Editor) error { return e.RemovePlan(e.plan) }},
		{"differences", "Mark differences, or stop", MenuPlan, keys(controlShiftKey("M")), several, plain(func(e *Editor) { e.MarkDifferences(!e.marking) })},
		{"other plan", "Show the other plan, or come back", MenuPlan, keys(shiftKey(KeyGlance)), several, plain((*Editor).ShowOther)},
	}
}

// stepCommands lead from one record to the next without a pointer.
func stepCommands() []Command {
	return []Command{
		{"next part", "Next part", MenuEdit, keys(key(KeyTab)), always, plain(func(e *Editor) { e.step(1) })},
		{"previous part", "Previous part", MenuEdit, keys(shiftKey(KeyTab)), always, plain(func(e *Editor) { e.step(-1) })},
		{"next attached", "Next feeder or protector at the part", MenuEdit, keys(key("]")), hasSelection, plain(func(e *Editor) { e.stepAttached(1) })},
		{"previous attached", "Previous feeder or protector at the part", MenuEdit, keys(key("[")), hasSelection, plain(func(e *Editor) { e.stepAttached(-1) })},
	}
}

// keyCommands returns what is done by keys as a rule.
func keyCommands() []Command {
	out := []Command{
		{"escape", "Stop, or select nothing", MenuEdit, keys(key(KeyEscape)), always, plain((*Editor).escape)},
	}
	for _, name := range []string{KeyUp, KeyDown, KeyLeft, KeyRight} {
		out = append(out, nudgeCommand("move ", name, key(name), false), nudgeCommand("move finely ", name, shiftKey(name), true))
	}
	return out
}

func nudgeCommand(verb, direction string, shortcut Key, fine bool) Command {
	name := verb + map[string]string{KeyUp: "up", KeyDown: "down", KeyLeft: "left", KeyRight: "right"}[direction]
	step, _ := arrowStep(direction, fine)
	return Command{name, unit.SentenceCase(name), MenuArrange, keys(shortcut), canCopy, func(e *Editor) error { return e.nudge(step) }}
}
