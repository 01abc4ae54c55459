import { words } from '../words.js';

const MIN_PASSWORD_LENGTH = 12;

export const passwordProblem = (password: string): { password?: string } =>
  password.length < MIN_PASSWORD_LENGTH ? { password: words.session.shortPassword(MIN_PASSWORD_LENGTH) } : {};
