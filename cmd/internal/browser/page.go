package browser

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"sync"
)

// Page is a tab.
type Page struct {
	wire    *wire
	session string
	target  string

	mutex    sync.Mutex
	loaded   chan struct{} // told of the next load
	opened   string        // the address of the page itself
	errors   []string
	requests []string
	touch    bool
	at       place // where the finger is, or the mouse
}

// place is one of the screen, CSS pixels from its top left.
type place struct{ x, y float64 }

// NewPage is an empty tab that keeps what it says and asks for.
func (b *Browser) NewPage() (*Page, error) {
	var made struct {
		Target  string `json:"targetId"`
		Session string `json:"sessionId"`
	}
	if err := b.call("", "Target.createTarget", params{"url": "about:blank"}, &made); err != nil {
		return nil, err
	}
	if err := b.call("", "Target.attachToTarget", params{"targetId": made.Target, "flatten": true}, &made); err != nil {
		return nil, err
	}
	p := &Page{wire: b.wire, session: made.Session, target: made.Target, loaded: make(chan struct{}, 1)}
	b.hear(p.session, p.event)
	for _, domain := range []string{"Page", "Runtime", "Log", "Network"} {
		if err := p.call(domain+".enable", nil, nil); err != nil {
			return nil, err
		}
	}
	return p, p.call("Emulation.setFocusEmulationEnabled", params{"enabled": true}, nil)
}

func (p *Page) call(method string, args params, into any) error {
	return p.wire.call(p.session, method, args, into)
}

// Close closes the tab.
func (p *Page) Close() error {
	return p.wire.call("", "Target.closeTarget", params{"targetId": p.target}, nil)
}

// fileURL is the URL of a file.
func fileURL(file string) (string, error) {
	path, err := filepath.Abs(file)
	return "file://" + filepath.ToSlash(path), err
}

// Open goes to a URL, or to a file by its path, and waits until all of it is loaded. What
// was said and asked for before is forgotten.
func (p *Page) Open(address string) (err error) {
	if !strings.Contains(address, ":") {
		if address, err = fileURL(address); err != nil {
			return err
		}
	}
	p.begin(address)
	var went struct {
		Failed string `json:"errorText"`
	}
	if err := p.call("Page.navigate", params{"url": address}, &went); err != nil {
		return err
	}
	if went.Failed != "" {
		return fmt.Errorf("%s: %s", address, went.Failed)
	}
	_, err = wait(p.wire, p.loaded)
	return err
}

// Reload opens the page again.
func (p *Page) Reload() error { return p.Open(p.opened) }

func (p *Page) begin(address string) {
	p.mutex.Lock()
	defer p.mutex.Unlock()
	p.opened, p.errors, p.requests = address, nil, nil
	select {
	case <-p.loaded:
	default:
	}
}

// event keeps what is told of the page.
func (p *Page) event(method string, text json.RawMessage) {
	var e event
	if json.Unmarshal(text, &e) != nil {
		return
	}
	p.mutex.Lock()
	defer p.mutex.Unlock()
	switch method {
	case "Page.loadEventFired":
		select {
		case p.loaded <- struct{}{}:
		default:
		}
	case "Network.requestWillBeSent":
		if e.Request.URL != p.opened && !strings.HasPrefix(e.Request.URL, "data:") {
			p.requests = append(p.requests, e.Request.URL)
		}
	default:
		if said := e.complaint(method); said != "" {
			p.errors = append(p.errors, said)
		}
	}
}

// event is what of the protocol's events is looked at.
type event struct {
	Type    string
	Args    []struct{ Value, Description any }
	Request struct{ URL string }
	Entry   struct{ Level, Text, URL string }
	Details struct {
		Text      string
		Exception struct{ Description string }
	} `json:"exceptionDetails"`
}

// complaint is an error or an exception in words; "": it is none.
func (e event) complaint(method string) string {
	switch {
	case method == "Runtime.exceptionThrown":
		return strings.TrimSpace(e.Details.Text + " " + e.Details.Exception.Description)
	case method == "Log.entryAdded" && e.Entry.Level == "error":
		return strings.TrimSpace(e.Entry.Text + " " + e.Entry.URL)
	case method == "Runtime.consoleAPICalled" && (e.Type == "error" || e.Type == "assert"):
		said := "console." + e.Type + ":"
		for _, a := range e.Args {
			if a.Value == nil {
				a.Value = a.Description
			}
			said += fmt.Sprint(" ", a.Value)
		}
		return said
	}
	return ""
}

// Errors are the errors that the page wrote on the console and the exceptions nobody
// caught, since it was opened.
func (p *Page) Errors() []string { return p.copyOf(&p.errors) }

// Requests are the URLs that the page asked for, but for its own and those with data: in them.
func (p *Page) Requests() []string { return p.copyOf(&p.requests) }

func (p *Page) copyOf(list *[]string) []string {
	p.mutex.Lock()
	defer p.mutex.Unlock()
	return slices.Clone(*list)
}

// Eval runs an expression, waits for a promise of it, and reads its value; nil: it is not
// asked for. An exception is an error.
func (p *Page) Eval(expression string, into any) error {
	var got struct {
		Result  struct{ Value json.RawMessage }
		Details *struct {
			Text      string
			Exception struct{ Description string }
		} `json:"exceptionDetails"`
	}
	args := params{"expression": expression, "awaitPromise": true, "returnByValue": true, "userGesture": true}
	if err := p.call("Runtime.evaluate", args, &got); err != nil {
		return err
	}
	switch {
	case got.Details != nil:
		return fmt.Errorf("%s %s", got.Details.Text, got.Details.Exception.Description)
	case into == nil:
		return nil
	case got.Result.Value == nil:
		return fmt.Errorf("%.60q has no value", expression)
	}
	return json.Unmarshal(got.Result.Value, into)
}
