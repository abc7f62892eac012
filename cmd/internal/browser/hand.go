package browser

import (
	"errors"
	"fmt"
)

// tap puts a finger on a place of the screen, CSS pixels from its top left, and lifts it;
// on a screen that is not a phone's it clicks there.
func (p *Page) tap(x, y float64) error { return errors.Join(p.down(x, y), p.Lift()) }

func (p *Page) down(x, y float64) error {
	p.at = place{x, y}
	if p.touch {
		return p.call("Input.dispatchTouchEvent", params{"type": "touchStart", "touchPoints": []params{{"x": x, "y": y}}}, nil)
	}
	return p.mouse("mousePressed")
}

// Lift takes the finger up again that Hold put down.
func (p *Page) Lift() error {
	if p.touch {
		return p.call("Input.dispatchTouchEvent", params{"type": "touchEnd", "touchPoints": []params{}}, nil)
	}
	return p.mouse("mouseReleased")
}

func (p *Page) mouse(kind string) error {
	args := params{"type": kind, "x": p.at.x, "y": p.at.y, "button": "left", "clickCount": 1}
	return p.call("Input.dispatchMouseEvent", args, nil)
}

// TapOn taps the middle of the first element that a selector finds, scrolled into view.
// One that is not there, or where another lies over it, is an error.
func (p *Page) TapOn(selector string) error { return p.TapAt(query(selector)) }

// TapAt does so with the element that an expression gives.
func (p *Page) TapAt(expression string) error { return p.touching(expression, p.tap) }

// Hold puts a finger on the middle of such an element, and leaves it there.
func (p *Page) Hold(selector string) error { return p.touching(query(selector), p.down) }

func query(selector string) string { return fmt.Sprintf("document.querySelector(%q)", selector) }

// touching finds the place of an element, and does something there.
func (p *Page) touching(expression string, do func(x, y float64) error) error {
	var at struct {
		X, Y  float64
		Wrong string
	}
	err := p.Eval(fmt.Sprintf(`(e => {
		if (!e) return {wrong: 'is not there'};
		e.scrollIntoView({block: 'center', inline: 'center', behavior: 'instant'});
		const r = e.getBoundingClientRect(), x = r.x + r.width / 2, y = r.y + r.height / 2;
		const top = document.elementFromPoint(x, y);
		if (top !== e && !e.contains(top)) return {wrong: 'lies under ' + (top ? top.outerHTML.slice(0, 80) : 'nothing')};
		return {x, y};
	})(%s)`, expression), &at)
	if err == nil && at.Wrong != "" {
		err = fmt.Errorf("%s %s", expression, at.Wrong)
	}
	if err != nil {
		return err
	}
	return do(at.X, at.Y)
}

// Type types a text, a key a letter, where the keyboard is.
func (p *Page) Type(text string) error {
	for _, letter := range text {
		k := key{Key: string(letter), Text: string(letter)}
		if letter == '\n' {
			k = keys["Enter"]
		}
		if err := p.press(k); err != nil {
			return err
		}
	}
	return nil
}

// key is a key of a keyboard; Code is its number in Windows, by which a browser knows it.
type key struct {
	Key, Text string
	Code      int
}

// keys are those that write nothing by themselves.
var keys = map[string]key{
	"Enter": {"Enter", "\r", 13}, "Tab": {"Tab", "", 9}, "Backspace": {"Backspace", "", 8}, "Delete": {"Delete", "", 46}, "Escape": {"Escape", "", 27},
	"ArrowLeft": {"ArrowLeft", "", 37}, "ArrowUp": {"ArrowUp", "", 38}, "ArrowRight": {"ArrowRight", "", 39}, "ArrowDown": {"ArrowDown", "", 40},
	"Home": {"Home", "", 36}, "End": {"End", "", 35}, "PageUp": {"PageUp", "", 33}, "PageDown": {"PageDown", "", 34},
}

// Press presses a key by its name in a browser, such as Enter or ArrowUp. Another name is
// an error.
func (p *Page) Press(name string) error {
	k, known := keys[name]
	if !known {
		return fmt.Errorf("no key %q", name)
	}
	return p.press(k)
}

func (p *Page) press(k key) error {
	args := params{"type": "keyDown", "key": k.Key, "windowsVirtualKeyCode": k.Code}
	if k.Text == "" {
		args["type"] = "rawKeyDown"
	} else {
		args["text"] = k.Text
	}
	if err := p.call("Input.dispatchKeyEvent", args, nil); err != nil {
		return err
	}
	return p.call("Input.dispatchKeyEvent", params{"type": "keyUp", "key": k.Key, "windowsVirtualKeyCode": k.Code}, nil)
}
