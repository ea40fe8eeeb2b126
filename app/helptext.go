package app

import (
	"fmt"
	"strings"

	"clampline/analysis"
	"clampline/analysis/mark"
	"clampline/diagram/edit"
)

// topic tells how something is done. A command's name in braces stands for its
// label and its keys, and a new line begins a new paragraph.
type topic struct{ title, text string }

// topics returns how things are done, in the order of the work.
func topics() []topic {
	return []topic{
		{"Begin", "An empty sheet offers three ways to begin: click one, or go to it by Tab and press Enter. " +
			"{open demo} shows an invented building to try things on."},
		{"Place a part", "Click a part in the strip at the left and then the sheet, or drag it there. " +
			"By keyboard a digit takes up a part, such as {place panel}; the arrows move it, R turns it, Enter places it. " +
			"Shift goes on with another one. Parts snap to the grid and to each other; hold Alt to suspend that."},
		{"Connect", "Drag from the terminal of one part to another part, or take {connect} and click both. " +
			"By keyboard: {connect}, Tab to the part that feeds and Enter, Tab to the part that is fed and Enter. " +
			"Two parts that are selected are connected at once. Then type the true length in the details: 24 m, 80 ft and 8 all do."},
		{"Protect", "Take {attach protector} and click the board, load or junction. " +
			"By keyboard: {attach protector}, Tab to the board, Enter; a board that is selected gets its protector at once. " +
			"It starts with the usual ratings for the system that arrives there; type those of its nameplate, and its leads as measured: 26 in, 2 ft 2 in, 0.66 m. " +
			"{protectors} opens the library, with generic kinds and your own."},
		{"Name and change", "Double-click a part, or {details}: its name is selected, of a feeder its length, and typing replaces it. " +
			"Of several boards, loads, feeders or protectors that are selected together the details show what they have in common, and “varies” where they differ; what is entered goes for all of them, as one step; {select boards} and {select protectors} select those. " +
			"A click on a field, or Tab, selects what it holds, so that typing replaces it; a second click sets the cursor. Enter takes a value, and so does leaving the field; " +
			"one that is wrong stays, with what it must be. Escape takes it back, and leaves the field where nothing is typed. {undo} takes back any change."},
		{"Keys", "Every command has a key; all stand below, menu by menu. Function keys, and keys with Ctrl, are commands wherever the focus is. " +
			"Letters, digits and the arrows are commands of the sheet alone: in a field they are typed, and while a list, a check or a heading of the details " +
			"has the focus, or was the last that was clicked, letters do nothing. Escape, or a click on the sheet, goes back to it."},
		{"Read a verdict", "Each board and load has a tag with its voltage, the mode, the share of what it withstands, and a verdict:\n" + verdictsTold() +
			"\nA transformer or an open switch is marked where protection stops at it. Select a bus: Working, at the right, gives the sum for each mode, step by step, with the source of each figure."},
		{"Choose the basis", "By the hand rule a voltage is the rating of the protector, what its leads add and what the wiring adds. " +
			"On the transient basis the surge is solved in time through the whole building, in the background after each edit. " +
			"{basis} changes from one to the other. Work that takes longer than " + fmt.Sprintf("%.0f", longest.Seconds()) + " s is given up, and a finding says so. {next surge} goes through the surge cases, and {edit surges} says what arrives where; a surge that is born inside arrives at every board and load in turn. A voltage with … is not final: some surges are still being solved."},
		{"Tell how sure a voltage is", "On the transient basis {how sure} solves some hundred runs in which what nobody knows for sure lies anywhere within its range: the voltage of varistors, the lengths of leads, how the conductors of feeders lie, loads that say nothing of themselves, the crest of the surge, and the mains at that moment. " +
			"It goes on in the background, as the status line tells; the same command stops it. Then each tag has the voltages below which 5 % and 95 % of the runs lie, with the mains in them, and in how many runs the bus holds: no voltage over its withstand, Held or Tight. Where that is in doubt a bus has more runs, until the share is known to about 1 %. A run of a flash to the building ends when its high peaks are over, unless it is in doubt which protectors it destroys. " +
			"Working gives the three ranges that move the voltage most. Any change of the sheet takes all of that away."},
		{"Work through findings", "Findings, below the sheet, list what is wrong or doubtful: why, by which rule, and how to mend it. " +
			"A click goes to the place; Mend it makes the change where that is mechanical, as one step to undo. " +
			"Set aside takes one that does not count here out of the plan's counts, with your reason and name; it is listed apart, printed below drawings, and counts again when it becomes graver or you say so. " +
			"On the sheet a disc counts findings of which the worst is an error, a triangle those of which the worst is a warning. {findings} opens or closes the list."},
		{"Survey on site", "{survey} writes a page for each board to fill in on site, as PDF, or the same as CSV for a spreadsheet: in one file tables of the boards, the transformers that feed them, their feeders, loads and supplies, and the protectors that were found, with a free row for each board; or as a page to fill in on a phone, which keeps what is typed and saves the CSV. " +
			"{import survey} reads the filled-in CSV, protectors found on site among it, and shows every change before it is made."},
		{"Record what was built", "{record} adds a plan named As built, a copy of the shown one. What was built goes into it, by typing (in the details of a protector, under As built, and the lengths of its leads) or by {import survey} while it is shown, with the CSV that a crew saved from its page (clampcalc phone --work). " +
			"The voltages are those of the building as it is; {differences} marks what is otherwise than planned, and clampcalc record lists it, with what is to be looked at again."},
		{"Compare plans", "A file holds several plans: sets of protectors on the same building. {new plan} begins an empty one, {duplicate plan} a copy, {rename plan} names it; " +
			"what it is for, its date and who made it stand in the details while nothing is selected. {next plan} shows the next one, and {plan earlier} moves it in their order. A file is opened on the plan that was shown when it was saved.\n" +
			"The first plan records what was found. It is locked as soon as there is a second one: its protectors stay as they are, and a board on which it has one cannot be removed, while the rest of the building can be changed in any plan. {lock plan} locks another one; {unlock plan} asks first.\n" +
			"Hold " + edit.KeyGlance + " on the sheet to see the other plan, and let it go to come back; {other plan} does the same without holding a key. The other plan is the first one, as found, of that the next, and of a record the plan that was built, until you choose another by {compare with}. " +
			"{differences} marks on the sheet what the plan has otherwise: + with a solid frame is added, ≠ with long dashes changed, − pale with short dashes removed. All that changed of a protector stands in its details.\n" +
			"{compare} opens the plans side by side: what each leaves at every board and load, by letter and colour, with the totals at the head; the plan on the sheet has a mark. " +
			"Check what is to be listed: what changes, critical equipment, what is still not held by a plan after the first. A click goes to the place, and one on the head of a column shows that plan. " +
			"By keyboard Up and Down walk, Enter goes there, Left and Right show the plan beside."},
		{"Price a plan", "Price and labour stand in the details of each protector; with nothing selected, Prices says what an hour, travel, a shutdown, overhead and tax are, and What the work costs adds it up, step by step. " +
			"The first of several plans is the building as found: what stands there is not bought again. " +
			"What it buys, in the details of a protector, tells which boards and loads get a worse verdict without it, and what leads as short as can be would do: by the hand rule at once, by the transient where you press the button."},
		{"Hand over", "{hand over} shows what leaves the program page by page: the drawing, a proposal for the owner, work sheets for the crew, findings with their workings; and writes them, or opens them in the program that this system has for PDF, to print. " +
			"The schedule of protectors is a workbook for a spreadsheet program, with what to buy on a second sheet. Choose the plan, the paper and how it is written; by the transient it is solved first, and a bar tells how far it is. " +
			"What stands at the head of each page, and what an hour and a shutdown cost, are fields of the sheet: select nothing."},
		{"Save and export", "{save} writes the file, and keeps those before it as .bak, .bak2 and so on; {export} writes the drawing with its title block, as PNG, SVG, PDF or DXF for drawing programs; firm, logo, number, revision and date of the title block are fields of the sheet, shown where nothing is selected. " +
			"The dialog has a list of types, and takes a whole path too, such as ~/plans/hall.svg. " +
			"A recovery copy is kept every few seconds of change, and offered after a crash; {settings} says how often, and how many of each are kept."},
		{"One file, two hands", "A file that another window has open can be opened for reading; changes are then saved under another name. " +
			"Where another program changes a file that is open, you are told when you come back to the window or save: what differs is listed, and nothing is written over unasked.\n" +
			"A saved file carries a checksum. Where that does not fit, the file was damaged or edited by hand, and the backup is named. " +
			"Who edits a file by hand takes its line \"checksum\" out; the next save writes another."},
		{"Cautions", mark.Caution},
	}
}

// verdictsTold says what each verdict means.
func verdictsTold() string {
	meaning := map[analysis.Verdict]string{
		analysis.Held:      fmt.Sprintf("at most %.0f %% of the withstand", 100*analysis.HeldLimit),
		analysis.Tight:     "up to 100 %",
		analysis.Exceeded:  "above it",
		analysis.Unreached: "no protector reaches it",
		analysis.Unknown:   "something is missing; the tag says what",
	}
	var out []string
	for _, v := range analysis.Verdicts() {
		out = append(out, fmt.Sprintf("%s  %s: %s.", v.Letter(), v, meaning[v]))
	}
	return strings.Join(out, "\n")
}

// pointerHelp is what the pointer does on the sheet.
var pointerHelp = [...][2]string{
	{"Select; add to or take from the selection", "click; Shift+click"},
	{"Select by box", "drag from an empty place"},
	{"Move; without snapping", "drag; Alt+drag"},
	{"Draw a feeder", "drag from a terminal, or Feeder in the strip"},
	{"Lengthen a bus bar", "drag its end"},
	{"Pan", "scroll; middle drag; Space+drag"},
	{"Zoom at the pointer", "Ctrl+scroll"},
	{"Edit the details", "double click"},
}
