"""Gift vouchers: asked for, paid, sent, redeemed in parts, refunded, withdrawn.

Entry points: `services.selling`, `services.redeeming`, `selectors.row_of`, `paper.voucher_pdf`, `links`.

Rules
- What is left is always summed anew, under the lock of the order and then of the voucher.
- What a voucher was sold as never changes: a trigger holds that.
- A refund of an order goes back to its voucher first; the page says so.

Decisions
- 2026-11-26: a voucher is money paid beforehand: selling one is a payment and no supply (a multi-purpose voucher,
  directive (EU) 2016/1065, from memory), using it a payment of the method "voucher".
- 2026-11-26: guesses are counted for each order, ten an hour: behind a proxy all visitors have one address.
"""

__all__ = ["forms", "links", "models", "paper", "selectors", "services"]
