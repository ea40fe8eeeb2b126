package app

import (
	"io"
	"os"

	"clampline/diagram"
)

// chooseImage asks for a PNG or JPEG and hands it on as a sheet has it.
func (a *App) chooseImage(use func(image string)) {
	const failed = "Image not taken"
	editor := a.editor
	a.askForFile("Choose an image", failed, func(path string) {
		image, err := readImage(path)
		switch {
		case err != nil:
			a.showError(failed, err)
		case a.editor == editor:
			use(image)
		}
	}, ".png", ".jpg", ".jpeg")
}

// readImage reads an image, and no more of a file than an image may have.
func readImage(path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	read, err := io.ReadAll(io.LimitReader(f, diagram.MostImage+1))
	if err != nil {
		return "", err
	}
	return diagram.EncodeImage(read)
}
