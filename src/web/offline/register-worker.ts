/// <reference types="vite/client" />
/** Whether the browser lets pages be kept for places without signal: over https, and on the device itself. */
export const canKeepPages = (): boolean => isSecureContext && 'serviceWorker' in navigator;

/** Keeps the pages on the device. While pages are being made, none are kept. */
export function registerWorker(): void {
  if (import.meta.env.PROD && canKeepPages()) void navigator.serviceWorker.register('/sw.js').catch(() => undefined); // e.g. switched off by the reader
}

/** Asks the browser not to clear what is kept here when it needs room. */
export async function askToKeep(): Promise<boolean> {
  try {
    return (await navigator.storage.persisted()) || (await navigator.storage.persist());
  } catch {
    return false; // not offered without https
  }
}
