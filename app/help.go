package app

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"clampline/analysis"
	"clampline/analysis/mark"
	"clampline/app/look"
	"clampline/diagram/edit"
	"clampline/diagram/unit"
)

// helpGroup is a part of Help under a heading.
type helpGroup struct {
	title string
	rows  []helpRow
}

// helpRow is a topic with its text, or a command with its keys.
type helpRow struct {
	title, text string
	topic       bool
}

// helpGroups returns all of Help: how things are done, the commands menu by
// menu, what the pointer does, and from where figures and rules are.
func (a *App) helpGroups() []helpGroup {
	how := helpGroup{title: "How to"}
	for _, t := range topics() {
		how.rows = append(how.rows, helpRow{t.title, a.refer(t.text), true})
	}
	out := append([]helpGroup{how}, a.commandGroups()...)
	pointer := helpGroup{title: "On the sheet, by pointer"}
	for _, row := range pointerHelp {
		pointer.rows = append(pointer.rows, helpRow{title: row[0], text: row[1]})
	}
	return append(out, pointer, a.sourceGroup())
}

// aboutSources is the title of the part of Help that lists them.
const aboutSources = "About the sources"

// sourceGroup returns every source with what is taken from it and how far it can be
// relied on.
func (a *App) sourceGroup() helpGroup {
	out := helpGroup{title: aboutSources}
	for _, s := range analysis.Sources() {
		text := unit.SentenceCase(unit.Terms(s.Taken, a.convention())) + ".\nStanding: " + string(s.Standing) + "."
		out.rows = append(out.rows, helpRow{s.Name, text, true})
	}
	return out
}

// commandGroups returns every command with its keys, in the groups of the
// menus.
func (a *App) commandGroups() []helpGroup {
	var out []helpGroup
	for _, command := range a.commands {
		title := "Menu " + command.Menu
		at := slices.IndexFunc(out, func(g helpGroup) bool { return g.title == title })
		if at < 0 {
			at = len(out)
			out = append(out, helpGroup{title: title})
		}
		out[at].rows = append(out[at].rows, helpRow{title: plainLabel(command), text: keysText(command.Keys)})
	}
	slices.SortStableFunc(out, func(x, y helpGroup) int {
		return cmp.Compare(rank(strings.TrimPrefix(x.title, "Menu ")), rank(strings.TrimPrefix(y.title, "Menu ")))
	})
	last := &out[len(out)-1]
	for _, row := range menuBarHelp() {
		last.rows = append(last.rows, helpRow{title: row[0], text: row[1]})
	}
	return out
}

// reference is a command's name in the text of a topic.
var reference = regexp.MustCompile(`\{[^}]+\}`)

// refer puts the labels and keys of commands in place of their names.
func (a *App) refer(text string) string {
	return reference.ReplaceAllStringFunc(text, func(name string) string {
		for _, command := range a.commands {
			if command.Name == strings.Trim(name, "{}") {
				return fmt.Sprintf("%s (%s)", plainLabel(command), keysText(command.Keys))
			}
		}
		return name
	})
}

func plainLabel(command edit.Command) string { return strings.TrimSuffix(command.Label, " …") }

func keysText(keys []edit.Key) string {
	var words []string
	for _, key := range keys {
		words = append(words, key.String())
	}
	return strings.Join(words, ", ")
}

// menuBarHelp is how keys reach the menu bar, where the window draws it.
func menuBarHelp() [][2]string {
	if nativeMenu {
		return nil
	}
	return [][2]string{{"Menu bar", keyMenuBar.String() + ", or Alt alone"}}
}

// matching returns what of the groups holds every one of the words, in any
// order and in large or small letters. A group whose title does is kept whole.
func matching(groups []helpGroup, words string) []helpGroup {
	var out []helpGroup
	for _, group := range groups {
		kept := helpGroup{title: group.title}
		for _, row := range group.rows {
			if holds(group.title+" "+row.title+" "+row.text, words) {
				kept.rows = append(kept.rows, row)
			}
		}
		if len(kept.rows) > 0 {
			out = append(out, kept)
		}
	}
	return out
}

func holds(text, words string) bool {
	text = strings.ToLower(text)
	for _, word := range strings.Fields(strings.ToLower(words)) {
		if !strings.Contains(text, word) {
			return false
		}
	}
	return true
}

// showHelp shows Help, with a field to search it.
func (a *App) showHelp() { a.showHelpOn("") }

// showSources shows what Help says of the sources.
func (a *App) showSources() { a.showHelpOn(aboutSources) }

// showHelpOn shows Help with some words searched for.
func (a *App) showHelpOn(words string) {
	q := &question{app: a}
	groups, rows := a.helpGroups(), container.NewVBox()
	scroll := container.NewVScroll(rows)
	show := func(words string) {
		rows.Objects = helpObjects(matching(groups, words))
		rows.Refresh()
		scroll.ScrollToTop()
	}
	search := newHelpSearch(q, scroll, show)
	show(words)
	search.SetText(words)
	q.show("Help", container.NewBorder(container.NewPadded(search), nil, nil, nil, scroll), fyne.NewSize(760, 580), closing())
	a.window.Canvas().Focus(search)
}

// helpObjects lays out groups: topics as paragraphs, commands in two columns.
func helpObjects(groups []helpGroup) []fyne.CanvasObject {
	if len(groups) == 0 {
		return []fyne.CanvasObject{look.NewFaint("Nothing is found. Try fewer or other words.")}
	}
	var out []fyne.CanvasObject
	for _, group := range groups {
		out = append(out, helpText(group.title, look.Style(look.ColorHeading, look.SizeHeading, true, false)))
		pairs := container.New(layoutPairs{})
		for _, row := range group.rows {
			if row.topic {
				out = append(out, helpText(row.title, look.Style(look.ColorHeading, theme.SizeNameText, true, false), strings.Split(row.text, "\n")...))
				continue
			}
			pairs.Add(widget.NewLabel(row.title))
			pairs.Add(look.NewFaint(row.text))
		}
		out = append(out, pairs)
	}
	return out
}

// helpText returns a heading and the paragraphs below it.
func helpText(heading string, style widget.RichTextStyle, paragraphs ...string) fyne.CanvasObject {
	out := widget.NewRichText(&widget.TextSegment{Text: heading, Style: style})
	for _, text := range paragraphs {
		out.Segments = append(out.Segments, &widget.TextSegment{Text: text, Style: look.Style(theme.ColorNameForeground, theme.SizeNameText, false, false)})
	}
	out.Wrapping = fyne.TextWrapWord
	return out
}

// helpSearch is the field to search Help; the keys that go up and down move the
// text below it.
type helpSearch struct {
	widget.Entry
	question *question
	scroll   *container.Scroll
}

func newHelpSearch(q *question, scroll *container.Scroll, changed func(string)) *helpSearch {
	s := &helpSearch{question: q, scroll: scroll}
	s.PlaceHolder, s.OnChanged = "Search: place, verdict, export, a key …", changed
	s.ExtendBaseWidget(s)
	return s
}

// TypedKey moves the text, clears the field or closes Help.
func (s *helpSearch) TypedKey(ev *fyne.KeyEvent) {
	page := s.scroll.Size().Height - 2*theme.TextSize()
	switch {
	case ev.Name == fyne.KeyEscape && s.Text != "":
		s.SetText("")
	case ev.Name == fyne.KeyEscape:
		s.question.key(ev)
	case ev.Name == fyne.KeyDown:
		s.move(3 * theme.TextSize())
	case ev.Name == fyne.KeyUp:
		s.move(-3 * theme.TextSize())
	case ev.Name == fyne.KeyPageDown:
		s.move(page)
	case ev.Name == fyne.KeyPageUp:
		s.move(-page)
	default:
		s.Entry.TypedKey(ev)
	}
}

func (s *helpSearch) move(by float32) {
	s.scroll.ScrollToOffset(s.scroll.Offset.AddXY(0, by))
}

func (a *App) showCautions() {
	a.showMessage("Cautions", mark.Caution)
}

func (a *App) showAbout() {
	version := a.app.Metadata().Version
	text := fmt.Sprintf("Clampline %s\n\nPlans the surge protection of a building on its one-line diagram.\n\n%s", version, mark.Caution)
	a.showMessage("About Clampline", text)
}
