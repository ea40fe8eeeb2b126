package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"clampline/diagram"
	"clampline/diagram/file"
)

// output is where a command writes text that is meant for another program.
type output struct {
	path  string
	force bool
}

func (o *output) flags(cmd *cobra.Command, usage string) {
	cmd.Flags().StringVarP(&o.path, "output", "o", "", usage)
	cmd.Flags().BoolVar(&o.force, "force", false, "replace a file that is there")
}

// toScreen reports whether no file is written.
func (o *output) toScreen() bool { return o.path == "" || o.path == "-" }

// check looks at the file before any work is done.
func (o *output) check() error {
	if o.toScreen() {
		return nil
	}
	return refuseToReplace(o.path, o.force)
}

// write makes the whole text before it touches the file.
func (o *output) write(screen io.Writer, make func(io.Writer) error) error {
	var text bytes.Buffer
	if err := make(&text); err != nil {
		return fileError(err)
	}
	if o.toScreen() {
		_, err := screen.Write(text.Bytes())
		return wrapFile(err)
	}
	err := file.Export(o.path, func(w io.Writer) error { _, err := w.Write(text.Bytes()); return err })
	if err != nil {
		return fileError(err)
	}
	fmt.Fprintf(screen, "wrote %s\n", o.path)
	return nil
}

func wrapFile(err error) error {
	if err == nil {
		return nil
	}
	return fileError(err)
}

// refuseToReplace returns an error where there is something at the path, unless
// it may be replaced.
func refuseToReplace(path string, force bool) error {
	if _, err := os.Lstat(path); !force && !errors.Is(err, fs.ErrNotExist) {
		return usageError("%s is there already; choose another name, or add --force to replace it", path)
	}
	return nil
}

// saveSheet writes a sheet, and tells what did not go as it should besides.
func saveSheet(errs io.Writer, path string, doc *diagram.Document) error {
	out, err := file.Save(path, doc, file.Saving{Backups: file.UsualBackups})
	if err != nil {
		return fileError(err)
	}
	for _, warning := range out.Warnings {
		fmt.Fprintf(errs, "clampcalc: %s: %v\n", path, warning)
	}
	return nil
}
