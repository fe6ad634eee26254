//! Elements of the page, put together by calls. What the `html!` macro writes
//! out at every element is long; a call is a few bytes, and the first download
//! holds some three hundred elements.

use std::cell::RefCell;
use std::rc::Rc;

use web_sys::{FocusEvent, InputEvent, MouseEvent};
use wording::Text;
use yew::virtual_dom::{AttributeOrProperty, Attributes, Listener, VList, VTag};
use yew::{AttrValue, Callback, Html, html};

/// An element that is being put together. Boxed, so that every call hands on
/// one pointer.
pub struct Element(Box<Parts>);

struct Parts {
    tag: VTag,
    names: Vec<&'static str>,
    values: Vec<Option<AttributeOrProperty>>,
    children: Vec<Html>,
}

/// An element without attributes and content.
#[inline(never)]
pub fn element(tag: &'static str) -> Element {
    Element(Box::new(Parts {
        tag: VTag::new(tag),
        names: Vec::new(),
        values: Vec::new(),
        children: Vec::new(),
    }))
}

/// A button that hears taps and clicks.
#[inline(never)]
pub fn button(class: &'static str, tapped: Callback<MouseEvent>) -> Element {
    element("button")
        .set("type", "button")
        .class(class)
        .on_click(tapped)
}

impl Element {
    #[inline(never)]
    fn attribute(mut self, name: &'static str, value: Option<AttributeOrProperty>) -> Self {
        self.0.names.push(name);
        self.0.values.push(value);
        self
    }

    /// Sets an attribute.
    #[inline(never)]
    pub fn set(self, name: &'static str, value: &'static str) -> Self {
        self.attribute(name, Some(AttributeOrProperty::Static(value)))
    }

    /// Sets an attribute to a text made now.
    #[inline(never)]
    pub fn write(self, name: &'static str, value: impl Into<AttrValue>) -> Self {
        self.attribute(name, Some(AttributeOrProperty::Attribute(value.into())))
    }

    /// Sets an attribute, or leaves it out. Which of the two may change from
    /// one drawing to the next.
    #[inline(never)]
    pub fn set_if(self, is_set: bool, name: &'static str, value: &'static str) -> Self {
        self.attribute(name, is_set.then_some(AttributeOrProperty::Static(value)))
    }

    /// Sets an attribute where there is a text for it.
    #[inline(never)]
    pub fn write_some(self, name: &'static str, value: Option<AttrValue>) -> Self {
        self.attribute(name, value.map(AttributeOrProperty::Attribute))
    }

    /// Sets its class.
    #[inline(never)]
    pub fn class(self, class: &'static str) -> Self {
        self.set("class", class)
    }

    /// Sets what a person has in a field.
    #[inline(never)]
    pub fn value(mut self, value: impl Into<AttrValue>) -> Self {
        self.0.tag.set_value(value.into());
        self
    }

    /// Sets a number as a property of the element in the page.
    #[inline(never)]
    pub fn property(self, name: &'static str, value: u32) -> Self {
        self.attribute(name, Some(AttributeOrProperty::Property(value.into())))
    }

    /// Tells it from its siblings.
    #[inline(never)]
    pub fn key(mut self, key: &str) -> Self {
        self.0.tag.key = Some(key.into());
        self
    }

    /// Puts content after what is in it. What is there only at times leaves
    /// an empty piece otherwise, so that its siblings keep their places.
    #[inline(never)]
    pub fn node(mut self, child: Html) -> Self {
        self.0.children.push(child);
        self
    }

    /// Puts what is there only at times after what is in it.
    #[inline(never)]
    pub fn maybe(self, child: Option<Self>) -> Self {
        self.node(child.map(Self::html).unwrap_or_default())
    }

    /// Puts a text of the catalogue after what is in it.
    #[inline(never)]
    pub fn tell(self, text: Text) -> Self {
        self.say(text.said())
    }

    /// Puts an element after what is in it.
    #[inline(never)]
    pub fn put(self, child: Self) -> Self {
        self.node(child.html())
    }

    /// Puts elements after what is in it.
    pub fn put_all(self, children: impl IntoIterator<Item = Html>) -> Self {
        children.into_iter().fold(self, Self::node)
    }

    /// Puts a text of the app after what is in it.
    #[inline(never)]
    pub fn say(self, text: &'static str) -> Self {
        self.node(Html::from(AttrValue::Static(text)))
    }

    /// Puts a text made now after what is in it.
    #[inline(never)]
    pub fn text(self, text: impl Into<AttrValue>) -> Self {
        self.node(Html::from(text.into()))
    }

    /// Listens, by a wrapper of [`mod@yew::html`].
    #[inline(never)]
    pub fn on(mut self, listener: Rc<dyn Listener>) -> Self {
        self.0.tag.add_listener(listener);
        self
    }

    /// Hears a tap or a click.
    #[inline(never)]
    pub fn on_click(self, callback: Callback<MouseEvent>) -> Self {
        self.on(Rc::new(html::onclick::Wrapper::new(callback)))
    }

    /// Hears what is typed or moved.
    #[inline(never)]
    pub fn on_input(self, callback: Callback<InputEvent>) -> Self {
        self.on(Rc::new(html::oninput::Wrapper::new(callback)))
    }

    /// Hears that it is entered.
    #[inline(never)]
    pub fn on_focus(self, callback: Callback<FocusEvent>) -> Self {
        self.on(Rc::new(html::onfocus::Wrapper::new(callback)))
    }

    /// The element as a piece of the page.
    #[inline(never)]
    pub fn html(self) -> Html {
        let Parts {
            mut tag,
            names,
            values,
            children,
        } = *self.0;
        if !names.is_empty() {
            tag.attributes = Attributes::Dynamic {
                keys: kept(names),
                values: values.into_boxed_slice(),
            };
        }
        if let Some(nodes) = tag.children_mut() {
            *nodes = all(children);
        }
        Html::from(tag)
    }
}

thread_local! {
    /// The lists of names in use. Yew compares attributes one by one only
    /// where it finds the same list as the last time.
    static NAMES: RefCell<Vec<&'static [&'static str]>> = const { RefCell::new(Vec::new()) };
}

/// The one list with these names. There are as many as the app has ways to
/// write an element, so that keeping them for good is not a leak.
fn kept(names: Vec<&'static str>) -> &'static [&'static str] {
    NAMES.with_borrow_mut(|lists| {
        if let Some(list) = lists.iter().find(|list| **list == names) {
            return *list;
        }
        let list: &'static [&'static str] = Vec::leak(names);
        lists.push(list);
        list
    })
}

/// Several pieces of the page as one.
#[inline(never)]
pub fn all(mut pieces: Vec<Html>) -> Html {
    if pieces.len() == 1 {
        return pieces.remove(0);
    }
    Html::from(VList::with_children(pieces, None))
}
