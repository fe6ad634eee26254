//! Requests for links, and for a look at one that came.

use carcass::Catalogue;
use draft::Draft;
use link::Scope;

use crate::block::{Block, Tone};
use crate::{share, written};

/// What may go into a link, each by its name.
pub fn scopes() -> [&'static str; Scope::ALL.len()] {
    Scope::ALL.map(Scope::name)
}

/// The first line of a request for a link and of what answers it.
pub const SHARE: &str = "share";

/// Writes a request for a link to as much of a draft as the scope of this place
/// among [`scopes`] takes in. `address` is that of the app. The answer comes with
/// the number of the request, since an older one may still be on its way.
pub fn share_request(draft: &str, number: usize, scope: usize, address: &str) -> String {
    format!("{SHARE}\n{draft}\n{number}\n{scope}\n{address}")
}

/// A link to a plan: after the first line the number of the request, the address of
/// the link, and from then on a piece of the page, its picture or a sentence for the
/// lack of one. The address is empty where no link can be made, and then the piece
/// says why. `None` where the text is no such request. A link to all of a side tells
/// the margin that is seen here.
pub fn share(catalogue: &Catalogue, request: &str) -> Option<String> {
    let mut lines = request.splitn(5, '\n');
    if lines.next()? != SHARE {
        return None;
    }
    let draft = Draft::of_text(lines.next()?)?;
    let number: usize = lines.next()?.parse().ok()?;
    let scope = lines
        .next()?
        .parse()
        .ok()
        .and_then(|at: usize| Scope::ALL.get(at).copied())?;
    let address = lines.next()?;
    let margin = (scope == Scope::Prices)
        .then(|| share::margin(catalogue, &draft))
        .flatten();
    let (link, piece) = match share::made(catalogue, &draft, scope, margin.as_deref()) {
        Ok(text) => {
            let link = format!("{address}#{text}");
            let picture = share::picture(&link);
            (link, picture)
        }
        Err(why) => {
            let trouble = [Block::Text(Tone::Trouble, why)];
            (String::new(), written::blocks(&trouble))
        }
    };
    Some(format!("{SHARE}\n{number}\n{link}\n{piece}"))
}

/// What follows the first line of an answer: the number of the request that it
/// answers, the link, the piece of the page.
pub fn shared(answer: &str) -> Option<(usize, &str, &str)> {
    let (number, rest) = answer.split_once('\n')?;
    let (link, piece) = rest.split_once('\n')?;
    Some((number.parse().ok()?, link, piece))
}

/// The first line of a request to look at a link and of what answers it.
pub const OPENED: &str = "opened";

/// Writes a request to look at what stands behind the `#` of a link.
pub fn opened_request(draft: &str, text: &str) -> String {
    format!("{OPENED}\n{draft}\n{text}")
}

/// What a link holds, as a piece of the page. `None` where the text is no such
/// request.
pub fn opened(catalogue: &Catalogue, request: &str) -> Option<String> {
    let mut lines = request.splitn(3, '\n');
    if lines.next()? != OPENED {
        return None;
    }
    let draft = Draft::of_text(lines.next()?)?;
    let blocks = share::opened(catalogue, &draft, lines.next()?);
    Some(format!("{OPENED}\n{}", written::blocks(&blocks)))
}
