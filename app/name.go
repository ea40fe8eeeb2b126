package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage/repository"

	"clampline/diagram/unit"
)

// access is all that the toolkit can do with files.
type access interface {
	repository.WritableRepository
	repository.AppendableRepository
	repository.HierarchicalRepository
	repository.ListableRepository
	repository.DeleteAllRepository
	repository.CopyableRepository
	repository.MovableRepository
}

// namer is the toolkit's access to files with one difference: a file that a
// dialog names is neither made nor emptied. Only its name is wanted: what is
// written replaces the file as a whole, and the old one stays until then.
type namer struct{ access }

// nameOnly sets the namer up.
func nameOnly() {
	files, err := repository.ForScheme("file")
	if all, ok := files.(access); err == nil && ok {
		repository.Register("file", namer{all})
	}
}

// List returns what is in a folder, under names that are only seen.
func (n namer) List(uri fyne.URI) ([]fyne.URI, error) {
	list, err := n.access.List(uri)
	for i, one := range list {
		if unit.Visible(one.Name()) != one.Name() {
			list[i] = seen{one}
		}
	}
	return list, err
}

// seen is a file of which the name would act on what shows it.
type seen struct{ fyne.URI }

// Name returns the name as it is shown.
func (s seen) Name() string { return unit.Visible(s.URI.Name()) }

// Writer returns a writer that opens the file at the first byte.
func (n namer) Writer(uri fyne.URI) (fyne.URIWriteCloser, error) {
	return &late{uri: uri, open: n.access.Writer}, nil
}

// late is a file that is opened when something is written.
type late struct {
	uri  fyne.URI
	open func(fyne.URI) (fyne.URIWriteCloser, error)
	file fyne.URIWriteCloser
}

// URI returns the name of the file.
func (l *late) URI() fyne.URI { return l.uri }

// Write writes, and opens the file before the first byte.
func (l *late) Write(p []byte) (int, error) {
	if l.file == nil {
		file, err := l.open(l.uri)
		if err != nil {
			return 0, err
		}
		l.file = file
	}
	return l.file.Write(p)
}

// Close closes the file where anything was written.
func (l *late) Close() error {
	if l.file == nil {
		return nil
	}
	return l.file.Close()
}

// named returns the path that a dialog was asked for, and writes nothing.
func named(writer fyne.URIWriteCloser) string {
	path := writer.URI().Path()
	_ = writer.Close() // nothing was written
	return path
}
