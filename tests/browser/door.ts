import type { Page } from 'playwright-core';

/** Comes in at the door as a person does: the name, then the PIN or the password that goes with it. */
export async function comeIn(page: Page, address: string, name: string, secret: string): Promise<void> {
  await page.goto(address);
  await page.getByRole('button', { name: new RegExp(`^${name}`) }).click();
  await enterSecret(page, secret);
  await page.getByRole('button', { name: 'Come in' }).click();
  await page.getByRole('button', { name, exact: true }).waitFor();
}

/** A PIN by the keys of the page, a password as it is typed. */
export async function enterSecret(page: Page, secret: string): Promise<void> {
  if (!/^[0-9]+$/.test(secret)) {
    await page.getByLabel('Password', { exact: true }).fill(secret);
    return;
  }
  const pad = page.getByRole('group', { name: 'Digits of the PIN' });
  for (const digit of secret) await pad.getByRole('button', { name: digit, exact: true }).click();
}
