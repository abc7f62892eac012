package browser

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"sync"
)

// wire carries calls to the browser and brings back answers and events.
type wire struct {
	ctx    context.Context
	in     *os.File
	out    *os.File
	gone   chan struct{} // closed when the browser says no more
	mutex  sync.Mutex
	last   int // number of the last call
	calls  map[int]chan message
	events map[string]func(method string, params json.RawMessage) // by session
}

// message is one of the protocol's, either way.
type message struct {
	ID      int             `json:"id,omitempty"`
	Session string          `json:"sessionId,omitempty"`
	Method  string          `json:"method,omitempty"`
	Params  json.RawMessage `json:"params,omitempty"`
	Result  json.RawMessage `json:"result,omitempty"`
	Error   *struct {
		Message string `json:"message"`
	} `json:"error,omitempty"`
}

// params are a call's.
type params map[string]any

// newWire begins to listen.
func newWire(ctx context.Context, in, out *os.File) *wire {
	w := &wire{ctx: ctx, in: in, out: out, gone: make(chan struct{}), calls: map[int]chan message{},
		events: map[string]func(string, json.RawMessage){}}
	go w.listen()
	return w
}

// listen hands on what comes until nothing does.
func (w *wire) listen() {
	defer close(w.gone)
	lines := bufio.NewReader(w.in)
	for {
		text, err := lines.ReadBytes(0)
		if err != nil {
			return
		}
		var m message
		if json.Unmarshal(text[:len(text)-1], &m) == nil {
			w.handOn(m)
		}
	}
}

// handOn gives an answer to who waits for it, and an event to its page.
func (w *wire) handOn(m message) {
	w.mutex.Lock()
	answered, heard := w.calls[m.ID], w.events[m.Session]
	delete(w.calls, m.ID)
	w.mutex.Unlock()
	switch {
	case answered != nil:
		answered <- m
	case heard != nil:
		heard(m.Method, m.Params)
	}
}

// hear has a session's events handed to a function, which must not call.
func (w *wire) hear(session string, f func(string, json.RawMessage)) {
	w.mutex.Lock()
	defer w.mutex.Unlock()
	w.events[session] = f
}

// call asks the browser, or one session of it, and reads the answer into a value; nil:
// there is nothing to read.
func (w *wire) call(session, method string, p params, into any) error {
	answered := make(chan message, 1)
	if err := w.send(session, method, p, answered); err != nil {
		return fmt.Errorf("%s: %w", method, err)
	}
	m, err := wait(w, answered)
	switch {
	case err != nil:
		return fmt.Errorf("%s: %w", method, err)
	case m.Error != nil:
		return fmt.Errorf("%s: %s", method, m.Error.Message)
	case into == nil:
		return nil
	}
	return json.Unmarshal(m.Result, into)
}

// send writes a call, whole.
func (w *wire) send(session, method string, p params, answered chan message) error {
	args, err := json.Marshal(p)
	if err != nil {
		return err
	}
	if p == nil {
		args = nil
	}
	w.mutex.Lock()
	defer w.mutex.Unlock()
	w.last++
	text, err := json.Marshal(message{ID: w.last, Session: session, Method: method, Params: args})
	if err != nil {
		return err
	}
	w.calls[w.last] = answered
	if _, err = w.out.Write(append(text, 0)); err != nil {
		return errGone
	}
	return nil
}

var errGone = errors.New("the browser is gone")

// wait waits for something of the browser's, not for ever.
func wait[T any](w *wire, told <-chan T) (got T, err error) {
	ctx, cancel := context.WithTimeout(w.ctx, callLimit)
	defer cancel()
	select {
	case got = <-told:
		return got, nil
	case <-w.gone:
		return got, errGone
	case <-ctx.Done():
		return got, ctx.Err()
	}
}

// hangUp closes our ends; that they are closed already does no harm.
func (w *wire) hangUp() {
	_ = w.in.Close()
	_ = w.out.Close()
}
