package app

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"clampline/app/drawer"
	"clampline/diagram/library"
	"clampline/diagram/unit"
)

// libraryExtension is the ending of files with protectors.
const libraryExtension = ".json"

// importFile asks for a file with protectors and takes them into the user's
// library.
func (p *protectors) importFile() {
	p.app.askForFile("Import protectors", "Not imported", p.importFrom, libraryExtension)
}

// importFrom takes the protectors of the file into the user's library, and asks
// about those of which another one has the id.
func (p *protectors) importFrom(path string) {
	entries, err := entriesIn(path)
	if err == nil {
		var got library.Imported
		if got, err = p.own.importFrom(entries); err == nil {
			p.imported(path, got)
			return
		}
	}
	p.show()
	p.app.showError("Not imported", fmt.Errorf("%s\n\n%s", path, unit.SentenceCase(reason(err, "open "+path+": "))))
}

// entriesIn returns the protectors of a file that must be there.
func entriesIn(path string) ([]library.Entry, error) {
	if _, err := os.Stat(path); err != nil {
		return nil, err
	}
	entries, err := library.Load(path)
	if err == nil && len(entries) == 0 {
		err = errors.New("the file holds no protectors; choose another one")
	}
	return entries, err
}

// imported says what came of an import.
func (p *protectors) imported(path string, got library.Imported) {
	p.show()
	if len(got.Added) > 0 {
		p.view.Pick(got.Added[0].Protector.ID)
	}
	said := importText(path, got)
	if len(got.Differ) == 0 {
		p.app.note(said)
		return
	}
	p.askAbout(said, got.Differ)
}

// importText counts what came of an import.
func importText(path string, got library.Imported) string {
	out := fmt.Sprintf("Imported from %s: %d added", filepath.Base(path), len(got.Added))
	if n := len(got.Same); n > 0 {
		out += fmt.Sprintf(", %d were there already", n)
	}
	return out + "."
}

// askAbout asks what is to become of entries that differ from those with the
// same id. Those that come with the program cannot be replaced.
func (p *protectors) askAbout(said string, differ []library.Conflict) {
	var names []string
	own := false
	for _, c := range differ {
		names = append(names, drawer.NameOf(c.Theirs))
		own = own || c.Mine.Own
	}
	settle := func(replace bool) func() {
		return func() {
			if err := p.own.resolve(differ, replace); err != nil {
				p.notKept(err)
				return
			}
			p.show()
		}
	}
	replies := []reply{{"Leave them out", stayReply, nil}}
	if own {
		replies = append(replies, reply{"Replace mine", dangerReply, settle(true)})
	}
	replies = append(replies, reply{"Keep both", mainReply, settle(false)})
	q := &question{app: p.app}
	q.show("Which are to be kept?", paragraph(said+"\n\n"+differText(names)), fyne.Size{}, replies...)
}

// differText names what differs.
func differText(names []string) string {
	if len(names) == 1 {
		return fmt.Sprintf("One in the file differs from that with the same id in the library: %s.", names[0])
	}
	return fmt.Sprintf("%d in the file differ from those with the same ids in the library: %s.", len(names), shortList(names))
}

// shortList joins a few names.
func shortList(names []string) string {
	const most = 5
	if len(names) > most {
		names = append(names[:most:most], fmt.Sprintf("and %d more", len(names)-most))
	}
	return strings.Join(names, "; ")
}

// exportFile asks for a name and writes the user's library to it.
func (p *protectors) exportFile() {
	p.app.askForName("Export protectors", "Not exported", "my-protectors"+libraryExtension, []fileType{{"Protectors (*" + libraryExtension + ")", libraryExtension}}, p.exportTo)
}

// exportTo writes the user's library; a name without an ending gets one.
func (p *protectors) exportTo(path string) {
	p.app.withEnding(path, libraryExtension, func(full string) {
		if err := p.own.own.Save(full); err != nil {
			p.app.showError("Not exported", fmt.Errorf("%s\n\n%s", full, unit.SentenceCase(reason(err, "save "+full+": "))))
			return
		}
		p.app.note(fmt.Sprintf("%s written to %s", unit.CountOf(len(p.own.entries()), "protector"), shorten(full)))
	})
}
