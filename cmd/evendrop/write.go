package main

import "io"

// printable is an answer in every form.
type printable interface {
	Text() ([]byte, error)
	Markdown() ([]byte, error)
	JSON() ([]byte, error)
	CSV() ([]byte, error)
}

// write prints an answer whole, or nothing of it.
func write(stdout io.Writer, answer printable, as string) error {
	render := map[string]func() ([]byte, error){
		"text": answer.Text, "markdown": answer.Markdown, "json": answer.JSON, "csv": answer.CSV,
	}[as]
	page, err := render()
	if err != nil {
		return err
	}
	_, err = stdout.Write(page)
	return err
}
